import { getCACertificates, setDefaultCACertificates } from "node:tls";
import { generate } from "selfsigned";

export type Certificate = { readonly cert: string; readonly key: string };

/** A certificate for 127.0.0.1 that signs itself, made anew for each test. */
export async function makeCertificate(): Promise<Certificate> {
  const made = await generate([{ name: "commonName", value: "voice stand-in" }], {
    keyType: "ec",
    curve: "P-256",
    extensions: [
      { name: "basicConstraints", cA: true, critical: true },
      { name: "subjectAltName", altNames: [{ type: 7, ip: "127.0.0.1" }] },
    ],
  });
  return { cert: made.cert, key: made.private };
}

/** This process believes the certificate until the returned function is called. */
export function trust({ cert }: Certificate): () => void {
  const before = getCACertificates("default");
  setDefaultCACertificates([...before, cert]);
  return () => setDefaultCACertificates(before);
}
