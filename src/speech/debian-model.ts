/** Where Debian's package keeps the English model. */
export const DEBIAN_MODEL = "/usr/share/pocketsphinx/model/en-us";
