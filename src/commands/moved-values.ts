/** What any command that moves a run may add to its values. */
export const movedValues: Readonly<Record<string, string>> = {
  moved:
    "runs put off so that no hands are wanted in two places: tank, put_off_s, first_pour (ISO); missing when there were none",
};
