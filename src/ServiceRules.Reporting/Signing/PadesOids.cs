namespace ServiceRules.Reporting.Signing;

/// <summary>Object identifiers of RFC 5652, RFC 5035, RFC 5758 and RFC 3161 that a baseline signature uses.</summary>
internal static class PadesOids
{
    public const string Data = "1.2.840.113549.1.7.1";
    public const string SignedData = "1.2.840.113549.1.7.2";
    public const string ContentType = "1.2.840.113549.1.9.3";
    public const string MessageDigest = "1.2.840.113549.1.9.4";
    public const string SigningCertificateV2 = "1.2.840.113549.1.9.16.2.47";
    public const string SignatureTimestamp = "1.2.840.113549.1.9.16.2.14";
    public const string TimestampContent = "1.2.840.113549.1.9.16.1.4";
    public const string Sha256 = "2.16.840.1.101.3.4.2.1";
    public const string EcdsaWithSha256 = "1.2.840.10045.4.3.2";
}
