using System.Formats.Asn1;

namespace ServiceRules.Reporting.Timestamping;

/// <summary>An authority's answer (RFC 3161, 2.4.2), opened far enough to say why its token was not taken.</summary>
internal static class TimestampReply
{
    /// <summary>The token in it, or null when there is none.</summary>
    public static byte[]? TokenIn(byte[] reply)
    {
        try
        {
            var outer = new AsnReader(reply, AsnEncodingRules.DER);
            var parts = outer.ReadSequence();
            _ = parts.ReadSequence();
            return parts.HasData ? parts.ReadEncodedValue().ToArray() : null;
        }
        catch (AsnContentException)
        {
            return null;
        }
    }
}
