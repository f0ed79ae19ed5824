import { expect, it } from "vitest";
import { checksumOf } from "../../lib/document/inputsChecksum.ts";

// FIPS 180-4 (2015), Secure Hash Standard, with the examples for SHA-256 that NIST publishes beside it (Cryptographic Standards and Guidelines, Example
// Values): one block, two blocks; the empty text and one million times "a" from the same program's test vectors. Values from memory, recomputed with
// Debian's sha256sum (coreutils): printf abc | sha256sum.
it.each([
  ["the empty text", "", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"],
  ["abc", "abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
  [
    "448 bits",
    "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  ],
  ["a million times a", "a".repeat(1_000_000), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"],
])("sha-256 of %s", (_, text, expected) => {
  expect(checksumOf(text)).toBe(expected);
});

// Debian's sha256sum: printf 'ø 62 ±0.05 µm' | sha256sum, in UTF-8.
it("sha-256 of a text is that of its UTF-8", () => {
  expect(checksumOf("ø 62 ±0.05 µm")).toBe("50a4ab975776d60c4e6391121ff48b4f57876d60e8f73607c9b4536d6413b80e");
});
