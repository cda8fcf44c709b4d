/** The first of January 2015, from which ids count (Discord's documentation, "Snowflakes"). */
const EPOCH = 1_420_070_400_000;

/** When something of Discord's was made, by its id; Unix ms. */
export const instantOf = (id: string): number => Number(BigInt(id) >> 22n) + EPOCH;
