using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Tests.Signing;

public sealed class SigningKeyFolderTests : IDisposable
{
    private static readonly DateTimeOffset At = SampleReport.IssuedAt;

    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    private string Folder => _scratch.At("keys");

    private string KeyFile => Path.Combine(Folder, SigningKeyFolder.FileName);

    private SigningKeyOutcome Open(DateTimeOffset at) =>
        SigningKeyFolder.OpenOrCreate(Folder, "Alder Reach Parks Trust", at);

    private static SigningKey Usable(SigningKeyOutcome outcome) =>
        Assert.IsType<SigningKeyOutcome.Usable>(outcome).Key;

    private static string Reason(SigningKeyOutcome outcome) =>
        Assert.IsType<SigningKeyOutcome.Refused>(outcome).Reason;

    [Fact]
    public void OpenOrCreate_FirstUse_MakesAKeyThatOnlyItsOwnerCanRead()
    {
        var outcome = Assert.IsType<SigningKeyOutcome.Usable>(Open(At));

        Assert.True(outcome.Created);
        Assert.Equal([SigningKeyFolder.FileName], Directory.GetFiles(Folder).Select(Path.GetFileName));
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(KeyFile));
            Assert.Equal(
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
                File.GetUnixFileMode(Folder)
            );
        }
    }

    [Fact]
    public void OpenOrCreate_FirstUse_CertificateSaysWhoAndWhatFor()
    {
        using var key = Usable(Open(At));

        var certificate = key.Certificate;
        Assert.Contains("O=Alder Reach Parks Trust", certificate.Subject, StringComparison.Ordinal);
        Assert.Equal("1.2.840.10045.2.1", certificate.PublicKey.Oid.Value);
        Assert.Equal(At.UtcDateTime, certificate.NotBefore.ToUniversalTime());
        Assert.Equal(
            X509KeyUsageFlags.DigitalSignature | X509KeyUsageFlags.NonRepudiation | X509KeyUsageFlags.CrlSign,
            certificate.Extensions.OfType<X509KeyUsageExtension>().Single().KeyUsages
        );
        Assert.False(
            certificate.Extensions.OfType<X509BasicConstraintsExtension>().Single().CertificateAuthority
        );
    }

    [Fact]
    public void OpenOrCreate_Again_OpensTheSameKey()
    {
        using var first = Usable(Open(At));

        var second = Assert.IsType<SigningKeyOutcome.Usable>(Open(At.AddDays(1)));

        Assert.False(second.Created);
        Assert.Equal(first.Fingerprint, second.Key.Fingerprint);
    }

    [Fact]
    public void OpenOrCreate_ManyFirstUsesAtOnce_EndWithOneKey()
    {
        var fingerprints = new string[8];
        Parallel.For(0, 8, number => fingerprints[number] = Usable(Open(At)).Fingerprint);

        Assert.Single(fingerprints.Distinct());
        Assert.Single(Directory.GetFiles(Folder));
    }

    [Fact]
    public void OpenOrCreate_BeforeItsTime_IsRefusedWithBothTimes()
    {
        _ = Open(At);

        Assert.Contains(
            "not valid before 2026-03-02 06:45:10 UTC",
            Reason(Open(At.AddDays(-1))),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void OpenOrCreate_AfterItsTime_IsRefused()
    {
        _ = Open(At);

        Assert.Contains("ended at 2036-03-02", Reason(Open(At.AddYears(11))), StringComparison.Ordinal);
    }

    [SkippableFact]
    public void OpenOrCreate_KeyThatOthersCanRead_IsRefused()
    {
        Skip.If(OperatingSystem.IsWindows(), "file modes are a Unix matter");
        _ = Open(At);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(KeyFile, UnixFileMode.UserRead | UnixFileMode.GroupRead);
        }

        Assert.Contains("chmod 600", Reason(Open(At)), StringComparison.Ordinal);
    }

    [SkippableFact]
    public void OpenOrCreate_FolderThatOthersCanLookInto_IsRefused()
    {
        Skip.If(OperatingSystem.IsWindows(), "file modes are a Unix matter");
        Directory.CreateDirectory(Folder);
        File.WriteAllText(_scratch.At("keys/notes"), "of somebody");
        Opened(Folder);

        Assert.Contains("chmod 700", Reason(Open(At)), StringComparison.Ordinal);
        Assert.False(File.Exists(KeyFile));
    }

    [SkippableFact]
    public void OpenOrCreate_EmptyFolderThatOthersCanLookInto_IsMadePrivate()
    {
        Skip.If(OperatingSystem.IsWindows(), "file modes are a Unix matter");
        Directory.CreateDirectory(Folder);
        Opened(Folder);

        _ = Usable(Open(At));

        Assert.False(Opened(Folder).HasFlag(UnixFileMode.OtherRead));
        Assert.Contains("chmod 700", Reason(Open(At)), StringComparison.Ordinal);
    }

    /// <summary>Lets everybody look into a folder; tells what was so before.</summary>
    private static UnixFileMode Opened(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return UnixFileMode.None;
        }
        var before = File.GetUnixFileMode(folder);
        File.SetUnixFileMode(folder, before | UnixFileMode.OtherRead | UnixFileMode.OtherExecute);
        return before;
    }

    [Theory]
    [InlineData("")]
    [InlineData("not a key")]
    [InlineData("-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n")]
    public void OpenOrCreate_FileThatIsNoKey_IsRefusedWithoutAnException(string content)
    {
        _ = Open(At);
        File.WriteAllText(KeyFile, content);

        Assert.Contains("PEM", Reason(Open(At)), StringComparison.Ordinal);
    }
}
