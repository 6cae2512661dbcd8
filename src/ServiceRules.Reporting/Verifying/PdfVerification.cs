using System.Collections.ObjectModel;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Verifying.Shape;

namespace ServiceRules.Reporting.Verifying;

/// <summary>
/// Checks the raw bytes of a signed report, with no PDF library in between: what this reader and an ordinary viewer
/// see must not be able to differ. Offline, bounded, and never an exception: what cannot be established has failed.
/// </summary>
public sealed class PdfVerification
{
    private readonly ReadOnlyMemory<byte> _file;
    private readonly VerificationGrounds _grounds;
    private readonly Checklist _checklist = new();
    private X509Certificate2? _certificate;
    private DateTimeOffset? _signedAt;
    private string? _timestampAskedOf;
    private DateTimeOffset? _trustedTime;
    private VerificationCheck _reached;
    private IReadOnlyDictionary<string, byte[]> _attachments = ReadOnlyDictionary<string, byte[]>.Empty;

    private PdfVerification(ReadOnlyMemory<byte> file, VerificationGrounds grounds)
    {
        _file = file;
        _grounds = grounds;
    }

    /// <summary>Says what can be said about the file.</summary>
    /// <param name="file">All of its bytes.</param>
    /// <param name="grounds">Whose word counts for the person who asks.</param>
    public static VerifiedPdf Verify(ReadOnlyMemory<byte> file, VerificationGrounds grounds)
    {
        var run = new PdfVerification(file, grounds);
#pragma warning disable CA1031 // Whatever goes wrong while judging a hostile file means "not established".
        try
        {
            run.Check();
        }
        catch (Exception problem)
        {
            run._checklist.Note(run._reached, $"cannot be checked: {problem.Message}", "");
        }
#pragma warning restore CA1031
        var points = run._checklist.Points();
        var isIntact = points.All(point => point.LeavesIntact);
        return new VerifiedPdf(
            points,
            isIntact ? run._attachments : ReadOnlyDictionary<string, byte[]>.Empty,
            run._certificate,
            run._signedAt,
            run._timestampAskedOf,
            run._trustedTime
        );
    }

    private bool Note(VerificationCheck check, string? fault, string passed) =>
        _checklist.Note(_reached = check, fault, passed);

    private void Check()
    {
        if (_file.Length > VerificationLimits.BytesMax)
        {
            Note(
                VerificationCheck.FileShape,
                $"the file is larger than {VerificationLimits.BytesMax} bytes",
                ""
            );
            return;
        }
        var (table, shapeFault) = PdfTableReader.Read(_file);
        if (!Note(VerificationCheck.FileShape, shapeFault, "one revision, nothing before, between or after"))
        {
            return;
        }
        _reached = VerificationCheck.OneSignature;
        var (entry, entryFault) = SignatureEntry.Find(table!);
        if (!Note(VerificationCheck.OneSignature, entryFault, "one signature, in its one field"))
        {
            return;
        }
        _signedAt = entry!.SignedAt;
        _timestampAskedOf = entry.TimestampAskedOf;
        _reached = VerificationCheck.SignedRange;
        var (bytes, rangeFault) = SignedBytes.Find(_file, entry.Dictionary);
        if (!Note(VerificationCheck.SignedRange, rangeFault, $"all {_file.Length} bytes but its own digits"))
        {
            return;
        }
        // Nothing that a changed file says is worth reading, and whoever changed it may have made it dear to read.
        if (CheckContainer(bytes!) is { } container)
        {
            CheckAttachments(table!);
            CheckSignature(container, entry);
        }
    }

    private void CheckAttachments(PdfTable table)
    {
        _reached = VerificationCheck.Attachments;
        var (files, fault) = AttachedFiles.Read(_file, table);
        _attachments = files;
        var names = files.Count == 0 ? "none" : string.Join(", ", files.Keys);
        Note(VerificationCheck.Attachments, fault, names);
    }

    /// <summary>The container of the signature, if it was made over the very bytes of the file.</summary>
    private SignatureContainer? CheckContainer(SignedBytes bytes)
    {
        _reached = VerificationCheck.SignatureContainer;
        var (container, fault) = SignatureContainer.Read(bytes.Hex.Span);
        if (!Note(VerificationCheck.SignatureContainer, fault, "one signer, canonical, zeros behind it"))
        {
            return null;
        }
        var digestFault = bytes.Digest().AsSpan().SequenceEqual(container!.MessageDigest)
            ? null
            : "the file was changed after it was signed";
        return Note(VerificationCheck.ContentDigest, digestFault, "the bytes are those that were signed")
            ? container
            : null;
    }

    private void CheckSignature(SignatureContainer container, SignatureEntry entry)
    {
        var signedAt = entry.SignedAt;
        _reached = VerificationCheck.SigningCertificate;
        var sent = container.Certificates.Select(X509CertificateLoader.LoadCertificate).ToList();
        _certificate = SigningCertificate.Named(container, sent);
        if (_certificate is null)
        {
            Note(_reached, "the certificate that the signature names is not in the file", "");
            return;
        }
        var passed =
            $"`{_certificate.Subject}`, stated time {UtcTime.Print(signedAt)}{EndedSince(_certificate)}";
        Note(_reached, SigningCertificate.Fault(_certificate, sent, container, signedAt), passed);
        Note(
            VerificationCheck.SignatureValue,
            SignatureFault(container, _certificate),
            "made with the key of the certificate"
        );
        _reached = VerificationCheck.Trust;
        Note(
            VerificationCheck.Trust,
            SigningCertificate.TrustFault(_certificate, sent, _grounds.Signers, signedAt),
            "the certificate is trusted here"
        );
        CheckTime(container, entry, _certificate);
        _reached = VerificationCheck.Revocation;
        var path = sent.OrderByDescending(_certificate.HasBytesOf).ToList();
        var found = RevocationFinding.Of(path, signedAt, _trustedTime, _grounds);
        _checklist.Note(VerificationCheck.Revocation, found.State, found.Told);
    }

    private void CheckTime(SignatureContainer container, SignatureEntry entry, X509Certificate2 certificate)
    {
        _reached = VerificationCheck.Timestamp;
        var found = TimestampFinding.Of(container, entry, certificate, _grounds);
        _checklist.Note(VerificationCheck.Timestamp, found.State, found.Told);
        _trustedTime = found.TrustedTime;
    }

    private string EndedSince(X509Certificate2 certificate) =>
        _grounds.CheckedAt > certificate.NotAfter
            ? $"; it has ended since, at {UtcTime.Print(certificate.NotAfter)}, and signs nothing later that counts"
            : "";

    private static string? SignatureFault(SignatureContainer container, X509Certificate2 certificate)
    {
        using var key = certificate.GetECDsaPublicKey();
        if (key is null || !SigningKeyFitness.IsP256(key))
        {
            return "the key of the certificate is not ECDSA on curve P-256";
        }
        return container.IsSignedBy(key)
            ? null
            : "the signature was not made with the key of the certificate in the file";
    }
}
