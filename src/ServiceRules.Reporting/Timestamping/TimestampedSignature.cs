using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Timestamping;

/// <summary>
/// A baseline signature with the time-stamp of its value inside (PAdES baseline B-T, EN 319 142-1): the one unsigned
/// attribute that it may have.
/// </summary>
internal static class TimestampedSignature
{
    /// <summary>Bytes kept free in the file for signature, chain and the largest answer accepted.</summary>
    public const int ReservedBytes = BaselineSignature.ReservedBytes + HttpTimestampAuthority.ReplyBytesMax;

    /// <summary>Puts the authority's token into a signature, if it is one that every check will find good.</summary>
    public static async Task<byte[]> OverAsync(
        byte[] signature,
        SignatureStatement statement,
        ITimestampAuthority authority
    )
    {
        var cms = new SignedCms();
        cms.Decode(signature);
        var signer = cms.SignerInfos[0];
        var value = signer.GetSignature();
        var encoded = await authority.StampAsync(value);
        var (token, fault) = TimestampToken.Read(encoded, value);
        fault ??= token!.FaultFor(statement.Certificate, statement.At);
        if (fault is not null)
        {
            throw new TimestampException($"no time-stamp of {authority.Host} that would hold: {fault}");
        }
        signer.AddUnsignedAttribute(new AsnEncodedData(new Oid(PadesOids.SignatureTimestamp), encoded));
        var stamped = cms.Encode();
        return stamped.Length <= ReservedBytes
            ? stamped
            : throw new TimestampException(
                $"the time-stamp of {authority.Host} makes the signature {stamped.Length} bytes; accepted: {ReservedBytes}"
            );
    }
}
