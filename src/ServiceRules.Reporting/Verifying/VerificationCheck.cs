namespace ServiceRules.Reporting.Verifying;

/// <summary>What is checked, in this order. A check that an earlier failure makes impossible is not reached.</summary>
public enum VerificationCheck
{
    /// <summary>One PDF revision in the exact shape this product writes, from the first byte to the last.</summary>
    FileShape,

    /// <summary>One signature field with one signature dictionary, and nothing that could act for itself.</summary>
    OneSignature,

    /// <summary>The signature covers the whole file, except its own hex digits.</summary>
    SignedRange,

    /// <summary>The signature container is in the one form it can have, padded with zeros only.</summary>
    SignatureContainer,

    /// <summary>The bytes of the file have the digest that was signed.</summary>
    ContentDigest,

    /// <summary>The signature fits the digest and the certificate in the file.</summary>
    SignatureValue,

    /// <summary>The certificate is the one the signature names, meant for signing and in date at the stated time.</summary>
    SigningCertificate,

    /// <summary>The certificate is trusted here.</summary>
    Trust,

    /// <summary>If the signature was time-stamped, the stamp is for it and holds; by whose clock it was signed.</summary>
    Timestamp,

    /// <summary>The certificate is on none of the revocation lists given, or the report was signed before it came on one.</summary>
    Revocation,

    /// <summary>The attachments are listed, complete and the only ones.</summary>
    Attachments,
}
