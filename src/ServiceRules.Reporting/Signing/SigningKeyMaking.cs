using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>Makes a P-256 key with a self-signed certificate.</summary>
public static class SigningKeyMaking
{
    /// <summary>Reports must stay checkable for years; the key itself should be changed sooner.</summary>
    public const int ValidYears = 10;

    /// <summary>Longest organisation name an X.509 name carries (ub-organization-name).</summary>
    public const int OrganisationLengthMax = 64;

    public static X509Certificate2 SelfSigned(string organisation, DateTimeOffset from)
    {
        var name = new X500DistinguishedNameBuilder();
        name.AddOrganizationName(
            organisation.Length > OrganisationLengthMax ? organisation[..OrganisationLengthMax] : organisation
        );
        name.AddCommonName("ServiceRules report signing");
        return SelfSigned(name.Build(), from);
    }

    /// <summary>A key under a name that is in use already.</summary>
    public static X509Certificate2 SelfSigned(X500DistinguishedName name, DateTimeOffset from)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest(name, key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(
            new X509BasicConstraintsExtension(
                certificateAuthority: false,
                hasPathLengthConstraint: false,
                pathLengthConstraint: 0,
                critical: true
            )
        );
        request.CertificateExtensions.Add(
            new X509KeyUsageExtension(
                // Lists too: it is this key that revokes those before it.
                X509KeyUsageFlags.DigitalSignature
                    | X509KeyUsageFlags.NonRepudiation
                    | X509KeyUsageFlags.CrlSign,
                critical: true
            )
        );
        request.CertificateExtensions.Add(
            new X509SubjectKeyIdentifierExtension(request.PublicKey, critical: false)
        );
        // X.509 times have whole seconds; rounding down keeps the instant itself inside.
        var start = DateTimeOffset.FromUnixTimeSeconds(from.ToUnixTimeSeconds());
        return request.CreateSelfSigned(start, start.AddYears(ValidYears));
    }
}
