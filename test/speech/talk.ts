/**
 * Talk of a household that means nothing to a bench, though some of it has its words: own text.
 * Said by two voices it is more than fifteen minutes.
 */
export const talk: readonly string[] = `
did you see where I left the keys to the bicycle shed this morning
the neighbours are painting their fence again and it smells terrible
I think we should have soup tonight because it is getting cold outside
my sister called and she wants to visit us next weekend with the children
there was a long queue at the bakery and they had no brown bread left
can you turn the radio down a little please I am trying to read
he said the train was late again and nobody told them why
we could paint the hallway yellow or maybe a very light green
the cat is sitting on the warm washing machine and refuses to move
put the kettle on and I will bring the biscuits from the cupboard
I was in the garden when the rain started and I got completely wet
the developer of that new building promised trees and there are none
she works for a software company and she says it is mostly meetings
how much did you pay for those shoes they look very comfortable
I waited in the car for half an hour and then I just went home
the film last night was far too long and the ending made no sense
remember when we stopped at that little village near the lake
the water pressure in the bathroom has been strange since Tuesday
two of the tomatoes are already red and the rest are still green
my back hurts from carrying all those boxes up the stairs
it takes twenty minutes by bus if the bridge is not closed
the children want to go swimming but the pool opens at three
I told him that he should mix more with people of his own age
there is something wrong with the light in the kitchen it flickers
we need onions carrots a little butter and perhaps a lemon
the doctor said that I should sleep more and worry less
what time does the last bus leave from the station on a Sunday
he dropped his phone in the river and then he jumped in after it
the bottle of olive oil is nearly empty so please buy a new one
I have never been so bored in a meeting in my entire life
the wind blew the door shut and I was standing outside in socks
they say that the winter is going to be mild this year
would you rather live by the sea or somewhere up in the mountains
her brother plays the violin in an orchestra in the north of the country
the dog next door barked from five in the morning until eight
I would like to start running again but my knee is not happy
the cake has to stay in the oven for another fifteen minutes
that is not what I meant and you know it perfectly well
I put your letter on the table under the blue newspaper
the old man told stories about the war and everyone went quiet
you should clear the table before your mother arrives
my favourite part of the concert was when the lights went out
we ran out of coffee so I made tea instead which was fine
the temperature today is supposed to reach thirty degrees in the shade
she left a note on the fridge but I could not read her writing
I am going out for a walk do you want to come with me
there were about forty people in the shop and only one cashier
the plan was to leave early but you know how that always goes
let me just finish this chapter and then I will help you
somebody has parked in front of our gate again without asking
he has been developing a strange habit of talking to the plants
the wash is still hanging outside and now look at those clouds
the stabilizer on the old boat broke and we all felt ill
my grandmother used to fix everything with string and candle wax
the baby finally fell asleep so please be quiet on the stairs
you can wait here if you like I will be back in a moment
the museum is free on the first Sunday of every month
I bought one litre of milk and a quart of strawberries at the market
we are not going to spend four hundred on a carpet are we
she asked me again and again until I finally said yes
his hands were cold and he had forgotten his gloves on the train
that summer it was so hot that the road went soft
do you remember the name of the man who fixed our roof
the shop in the west end closes at six but the other stays open
I heard a strange noise in the cellar like something dripping
the tank of the car was almost empty when we got to the border
put the rest in the freezer and we can have it on Friday
nobody knew the answer so we all just guessed and laughed
I ordered a small lamp and they sent me an enormous one
they were playing cards and drinking until two in the morning
she has a temperature and a cough so she stays in bed
the postman brings the parcels at ten and the letters at noon
we watched the boats go out and come back in all afternoon
if you stop complaining for a minute I can tell you what happened
my uncle collects stamps and he can talk about it for hours
the new teacher is strict but the children seem to like her
there is no hot water because the boiler has given up again
I dreamed that I was late for an exam and had no pencil
our holiday was lovely except for the food and the weather
the second half of the game was much better than the first
you never tell me anything I have to hear it from the neighbours
I need to get a new battery for the clock in the hall
the potatoes are done but the chicken needs a little longer
last year we planted roses and the snails ate every one of them
he opened the window and a bird flew straight into the room
I cannot believe that it is already the end of November
she rolled up her sleeves and washed all of the dishes by hand
we should push the sofa against the other wall and see how it looks
the recipe says three eggs but I only have two left
it was so dark that we could not see the path any more
they moved to the south coast because of the weather and the fish
the acorns are falling on the roof of the car like little stones
my cousin plays the banjo badly and very early in the morning
turn left after the church and then go on until the second bridge
hold on to the railing because the steps are rather slippery
he has trouble with his teeth and he is afraid of the dentist
that reminds me I have to write a card to my aunt in Canada
just pour the milk in slowly while you stir with the other hand
it is twenty to nine and you are still in your pyjamas
the price of petrol went up again by fifteen cents or was it fifty
we could ask the people from the choir to help with the tables
I like the picture in the middle but the frame is awful
the trousers were too short and the jacket was too wide
there was ice on the lake so thick that you could drive across
what did the man say when you told him about the broken glass
they serve breakfast until eleven and after that only sandwiches
my phone is at one percent and I left the charger at work
the lecture was about bees and how they find their way home
you said that you would be ready at seven and now look
a friend of mine keeps bees on the roof of her apartment house
the curtains have to be washed at forty degrees and not tumbled
I will have the fish and my wife would like the soup please
he talks in his sleep and mostly about football I think
the lift is out of order so we have to take the stairs
somebody should write a book about the things that happen here
the red one is mine and the white one belongs to my brother
it rained for six days and on the seventh the cellar was full
we met at a wedding and danced until our feet were sore
this chair is from my parents and the table is from a sale
every time I clean the windows it starts to rain the next day
did you lock the door or shall I go back and check it
the bread needs an hour to rise and then half an hour to bake
her father was a sailor and her mother ran a small hotel
we have eleven chickens one goose and a very angry cockerel
`
  .trim()
  .split("\n");
