using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Reporting.Revocation;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Tests.Signing;

public sealed class KeyRotationTests : IDisposable
{
    private static readonly DateTimeOffset At = SampleReport.IssuedAt;

    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    private string Folder => _scratch.At("keys");

    private string KeyFile => Path.Combine(Folder, SigningKeyFolder.FileName);

    private SigningKey Open(DateTimeOffset at) =>
        Assert
            .IsType<SigningKeyOutcome.Usable>(
                SigningKeyFolder.OpenOrCreate(Folder, "Alder Reach Parks Trust", at)
            )
            .Key;

    private KeyRotationOutcome.Rotated Rotate(DateTimeOffset at) =>
        Assert.IsType<KeyRotationOutcome.Rotated>(KeyRotation.Rotate(Folder, at));

    [Fact]
    public void Rotate_Key_SignsWithANewOneUnderTheSameName()
    {
        using var old = Open(At);

        var rotated = Rotate(At.AddDays(1));

        using var now = Open(At.AddDays(2));
        Assert.Equal(rotated.Key.Fingerprint, now.Fingerprint);
        Assert.NotEqual(old.Fingerprint, now.Fingerprint);
        Assert.Equal(old.Fingerprint, rotated.Retired);
        Assert.Equal(old.Certificate.SubjectName.RawData, now.Certificate.SubjectName.RawData);
        var kept = Assert.Single(RetiredCertificates.In(Folder));
        Assert.Equal(old.Certificate.RawData, kept.RawData);
        Assert.False(kept.HasPrivateKey);
    }

    [Fact]
    public void Rotate_OldPrivateKey_IsNowhereAnyMore()
    {
        using var old = Open(At);
        using var file = new FileStream(
            KeyFile,
            FileMode.Open,
            FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete
        );

        using var now = Rotate(At.AddDays(1)).Key;

        var left = new byte[file.Length];
        file.ReadExactly(left);
        Assert.All(left, one => Assert.Equal(0, one));
        Assert.All(
            Directory.GetFiles(Folder, "*", SearchOption.AllDirectories).Where(path => path != KeyFile),
            path => Assert.DoesNotContain("PRIVATE", File.ReadAllText(path), StringComparison.Ordinal)
        );
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(KeyFile));
        }
    }

    [Fact]
    public void Rotate_KeyWhoseCertificateHasEnded_GivesANewOne()
    {
        using var old = Open(At);

        using var now = Rotate(At.AddYears(11)).Key;

        Assert.True(now.Certificate.NotAfter > old.Certificate.NotAfter);
    }

    [Fact]
    public void Rotate_WithARevocationList_SignsTheListAnewWithTheNewKey()
    {
        using var first = Open(At);
        using var second = Rotate(At.AddDays(1)).Key;
        var (list, _) = KeyRevocation.Revoke(
            null,
            second,
            first.Certificate,
            X509RevocationReason.Superseded,
            At,
            At.AddDays(1)
        );
        RevocationFile.Write(Folder, list!);

        using var third = Rotate(At.AddDays(2)).Key;

        var again = RevocationFile.Read(Folder).List!;
        Assert.True(again.IsSignedBy(third.Certificate));
        Assert.Equal(list!.Entries.AsEnumerable(), again.Entries);
        Assert.Equal(2, RetiredCertificates.In(Folder).Count);
    }

    [Fact]
    public void Rotate_WithoutAKey_IsRefused() =>
        Assert.Contains(
            "no signing key",
            Assert.IsType<KeyRotationOutcome.Refused>(KeyRotation.Rotate(Folder, At)).Reason,
            StringComparison.Ordinal
        );

    [SkippableFact]
    public void Rotate_KeyThatOthersCanRead_IsRefused()
    {
        Skip.If(OperatingSystem.IsWindows(), "file modes are a Unix matter");
        using var old = Open(At);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(KeyFile, UnixFileMode.UserRead | UnixFileMode.GroupRead);
        }

        Assert.Contains("chmod 600", Refusal(), StringComparison.Ordinal);
        Assert.Empty(RetiredCertificates.In(Folder));
    }

    [Fact]
    public void Rotate_WithAListThatCannotBeRead_IsRefusedAndKeepsTheKey()
    {
        using var old = Open(At);
        File.WriteAllText(RevocationFile.In(Folder), "torn");

        Assert.Contains("no revocation list", Refusal(), StringComparison.Ordinal);
        using var now = Open(At.AddDays(1));
        Assert.Equal(old.Fingerprint, now.Fingerprint);
    }

    [Fact]
    public void Hold_WhileAnotherHolds_IsRefusedAndWaitsForNobody()
    {
        using var old = Open(At);

        using (SigningKeyFolder.Hold(Folder))
        {
            Assert.Throws<IOException>(() => SigningKeyFolder.Hold(Folder).Dispose());
            _ = Refusal();
        }

        Assert.True(File.Exists(Path.Combine(Folder, "changing")), "a lock that goes can be held twice");
        using var now = Rotate(At.AddDays(1)).Key;
    }

    private string Refusal() =>
        Assert.IsType<KeyRotationOutcome.Refused>(KeyRotation.Rotate(Folder, At.AddDays(1))).Reason;

    [Fact]
    public void Rotate_ManyAtOnce_LoseNoCertificate()
    {
        using var first = Open(At);
        var outcomes = new KeyRotationOutcome[6];
        Parallel.For(0, outcomes.Length, number => outcomes[number] = KeyRotation.Rotate(Folder, At));

        var made = outcomes.OfType<KeyRotationOutcome.Rotated>().Select(one => one.Key.Fingerprint).ToList();
        var known = RetiredCertificates.In(Folder).Select(CertificateFingerprint.Of).ToList();
        using var now = Open(At.AddDays(1));
        Assert.NotEmpty(made);
        Assert.Equal(
            [.. made.Append(first.Fingerprint).Order(StringComparer.Ordinal)],
            [.. known.Append(now.Fingerprint).Order(StringComparer.Ordinal)]
        );
    }

    [Fact]
    public void In_FileThatIsNoCertificate_IsPassedOver()
    {
        var folder = Directory.CreateDirectory(Path.Combine(Folder, RetiredCertificates.FolderName)).FullName;
        File.WriteAllBytes(Path.Combine(folder, "x.pem"), Encoding.ASCII.GetBytes("nothing"));

        Assert.Empty(RetiredCertificates.In(Folder));
    }
}
