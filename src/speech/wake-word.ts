/** What calls the bench. Measured beside others next to a running tap: see DEVELOPERS.md. */
export const WAKE_WORD = "nightingale";
