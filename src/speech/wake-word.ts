/** What calls the bench. Measured against others: see the table in DEVELOPERS.md. */
export const WAKE_WORD = "salamander";
