using System.Security.Cryptography.X509Certificates;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Reporting.Signing;

/// <summary>Finds the way from a certificate to its root among certificates given in any order.</summary>
internal static class IssuerChain
{
    // Whether the root is trusted is for whoever checks a report to say.
    private const X509ChainStatusFlags OfNoAccount =
        X509ChainStatusFlags.UntrustedRoot | X509ChainStatusFlags.PartialChain;

    /// <summary>
    /// The issuers from the nearest upwards, or what is wrong. The root is left out: it adds nothing, since whoever
    /// checks must already have it.
    /// </summary>
    public static (IReadOnlyList<X509Certificate2> Issuers, string? Fault) Link(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> others,
        DateTimeOffset at
    )
    {
        if (others.Count == 0)
        {
            return ([], null);
        }
        using var chain = Built(certificate, others, others.Where(IsSelfIssued), at);
        // Copies: the chain disposes of its own.
        var way = Way(chain, others);
        if (others.FirstOrDefault(other => !way.ContainsBytesOf(other)) is { } stray)
        {
            return (
                [],
                $"the chain does not link: `{stray.Subject}` is no issuer of `{certificate.Subject}`, which was issued by "
                    + $"`{certificate.Issuer}`; accepted: its issuers, in any order, and no others"
            );
        }
        return (ChainFault(chain.ChainElements) ?? RootFault(way) ?? TimeFault(way, at)) is { } fault
            ? ([], $"{fault}; accepted: a chain that holds at the time of the report")
            : ([.. way.Where(one => !IsSelfIssued(one))], null);
    }

    /// <summary>Whether all of the others are on the way from the certificate upwards.</summary>
    public static bool IsOf(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> others,
        DateTimeOffset at
    )
    {
        if (others.Count == 0)
        {
            return true;
        }
        using var chain = Built(certificate, others, others.Where(IsSelfIssued), at);
        return others.All(Way(chain, others).ContainsBytesOf);
    }

    /// <summary>
    /// Whether an issuer, root or not, is on the way from the certificate upwards, and the way holds as far as there.
    /// </summary>
    /// <param name="ofAll">Whether all of the others must be on the part of the way that holds.</param>
    public static bool LeadsTo(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> others,
        X509Certificate2 anchor,
        DateTimeOffset at,
        bool ofAll = false
    )
    {
        X509Certificate2[] roots = IsSelfIssued(anchor) ? [anchor] : [];
        using var chain = Built(certificate, [.. others, anchor], roots, at);
        var elements = chain.ChainElements.ToList();
        var end = elements.FindIndex(element => element.Certificate.HasBytesOf(anchor));
        if (end < 1)
        {
            return false;
        }
        var way = elements.Take(end + 1).ToList();
        List<X509Certificate2> holding = [.. way.Select(element => element.Certificate)];
        return (ChainFault(way) ?? TimeFault(holding, at)) is null
            && (!ofAll || others.All(holding.ContainsBytesOf));
    }

    private static X509Chain Built(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> others,
        IEnumerable<X509Certificate2> roots,
        DateTimeOffset at
    )
    {
        var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(roots.ToArray());
        chain.ChainPolicy.ExtraStore.AddRange(others.ToArray());
        chain.ChainPolicy.DisableCertificateDownloads = true;
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.VerificationFlags = X509VerificationFlags.AllowUnknownCertificateAuthority;
        chain.ChainPolicy.VerificationTime = at.UtcDateTime;
        _ = chain.Build(certificate);
        return chain;
    }

    private static List<X509Certificate2> Way(X509Chain chain, IReadOnlyList<X509Certificate2> among) =>
        [
            .. chain
                .ChainElements.Skip(1)
                .Select(element => Same(among, element.Certificate))
                .OfType<X509Certificate2>(),
        ];

    private static string? ChainFault(IEnumerable<X509ChainElement> elements) =>
        elements
            .SelectMany(element =>
                element
                    .ChainElementStatus.Where(status => (status.Status & ~OfNoAccount) != 0)
                    .Select(status =>
                        $"the chain does not hold at `{element.Certificate.Subject}`: {status.Status} "
                        + $"({status.StatusInformation.Trim()})"
                    )
            )
            .FirstOrDefault();

    // The platform takes a root as it is given; sent along with the others it must be the one that was issued.
    private static string? RootFault(IEnumerable<X509Certificate2> issuers) =>
        issuers.FirstOrDefault(one => IsSelfIssued(one) && !SignedObject.IsSignedBy(one.RawDataMemory, one))
            is { } root
            ? $"the root `{root.Subject}` is damaged: it is not signed with its own key"
            : null;

    // The platform leaves the times unlooked at when the root is not there.
    private static string? TimeFault(IEnumerable<X509Certificate2> issuers, DateTimeOffset at) =>
        issuers.FirstOrDefault(one => at < one.NotBefore || at > one.NotAfter) is { } ended
            ? $"the issuer `{ended.Subject}` is valid from {UtcTime.Print(ended.NotBefore)} to {UtcTime.Print(ended.NotAfter)}"
            : null;

    public static bool IsSelfIssued(X509Certificate2 certificate) =>
        certificate.SubjectName.RawData.AsSpan().SequenceEqual(certificate.IssuerName.RawData);

    private static X509Certificate2? Same(
        IReadOnlyList<X509Certificate2> among,
        X509Certificate2 certificate
    ) => among.FirstOrDefault(certificate.HasBytesOf);
}
