/** The same with its first letter large, to begin a sentence with. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
