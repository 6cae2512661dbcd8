using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Application.Filed;
using ServiceRules.Reporting.Revocation;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// Gives the folder a new key. The certificate of the old one stays, so that its reports stay trusted here; its
/// private part is overwritten. The new certificate bears the same name.
/// </summary>
public static class KeyRotation
{
    public static KeyRotationOutcome Rotate(string folder, DateTimeOffset at)
    {
        var path = Path.Combine(folder, SigningKeyFolder.FileName);
        if (!File.Exists(path))
        {
            return new KeyRotationOutcome.Refused(
                $"{SigningKeyFolder.Missing(folder)} to follow; the first report makes one"
            );
        }
        try
        {
            using var held = SigningKeyFolder.Hold(folder);
            var (text, unread) = SigningKeyFolder.Read(path);
            var (list, unreadList) = RevocationFile.Read(folder);
            if ((unread ?? unreadList) is { } fault)
            {
                return new KeyRotationOutcome.Refused(fault);
            }
            using var old = X509Certificate2.CreateFromPem(text);
            if (!IssuerChain.IsSelfIssued(old))
            {
                return new KeyRotationOutcome.Refused(
                    $"the certificate in `{path}` was issued by `{old.Issuer}`, who must issue the next one too"
                );
            }
            RetiredCertificates.Keep(folder, old);
            using (var certificate = SigningKeyMaking.SelfSigned(old.SubjectName, at))
            {
                Replace(path, SigningKeyFolder.PemOf(certificate));
            }
            if (
                SigningKeyFolder.Open(path, at, created: true)
                is not SigningKeyOutcome.Usable { Key: var key }
            )
            {
                throw new InvalidOperationException("a key was made that cannot be used");
            }
            if (list is not null)
            {
                RevocationFile.Write(folder, RevocationListMaking.Make(key, list, list.Entries, at));
            }
            return new KeyRotationOutcome.Rotated(key, CertificateFingerprint.Of(old));
        }
        catch (Exception problem)
            when (!DiskFull.Is(problem)
                && problem is IOException or UnauthorizedAccessException or CryptographicException
            )
        {
            return new KeyRotationOutcome.Refused($"signing key in `{folder}`: {problem.Message}");
        }
    }

    /// <summary>
    /// Puts the new file in the place of the old one in one step, and overwrites what the old one held only when the new
    /// one has reached the disk. A disk may keep older copies all the same; whoever must be sure of that revokes the
    /// old key.
    /// </summary>
    private static void Replace(string path, byte[] pem)
    {
        using var old = new FileStream(
            path,
            FileMode.Open,
            FileAccess.ReadWrite,
            FileShare.ReadWrite | FileShare.Delete
        );
        DurableFile.Write(path, pem, DurableFile.Private);
        old.Write(new byte[old.Length]);
        old.Flush(flushToDisk: true);
    }
}
