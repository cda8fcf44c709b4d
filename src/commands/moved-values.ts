/** What any command that moves a run may add to its values. */
export const movedValues: Readonly<Record<string, string>> = {
  moved:
    "runs put off so that no hands are wanted in two places: tank, put_off_s, first_pour (ISO); missing when there were none",
  collide:
    "tanks in which film is wet already and that now want one pair of hands: tanks, baths, at (ISO), apart_s; missing when there are none",
};
