import { fileURLToPath } from "node:url";

/** The project's own font in its four weights, so that a picture looks the same on every machine. */
export const fontFiles = (): readonly string[] =>
  [
    import.meta.resolve(
      "@expo-google-fonts/atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf",
    ),
    import.meta.resolve(
      "@expo-google-fonts/atkinson-hyperlegible-next/500Medium/AtkinsonHyperlegibleNext_500Medium.ttf",
    ),
    import.meta.resolve(
      "@expo-google-fonts/atkinson-hyperlegible-next/600SemiBold/AtkinsonHyperlegibleNext_600SemiBold.ttf",
    ),
    import.meta.resolve(
      "@expo-google-fonts/atkinson-hyperlegible-next/700Bold/AtkinsonHyperlegibleNext_700Bold.ttf",
    ),
  ].map((url) => fileURLToPath(url));
