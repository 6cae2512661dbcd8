using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Revocation;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Tests.Revocation;

/// <summary>Revoking in a folder of keys.</summary>
public sealed class KeyRevocationTests : IDisposable
{
    private const string Organisation = "Alder Reach Parks Trust";

    private static readonly DateTimeOffset At = SampleReport.IssuedAt;

    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    private string Folder => _scratch.At("keys");

    private void MakeKey()
    {
        var made = SigningKeyFolder.OpenOrCreate(Folder, Organisation, At);
        Assert.IsType<SigningKeyOutcome.Usable>(made).Key.Dispose();
    }

    private void Rotate() =>
        Assert.IsType<KeyRotationOutcome.Rotated>(KeyRotation.Rotate(Folder, At)).Key.Dispose();

    private KeyRevocationOutcome Revoke(X509Certificate2 certificate) =>
        KeyRevocation.Revoke(Folder, certificate, X509RevocationReason.Superseded, At, At.AddDays(1));

    private string Refusal(X509Certificate2 certificate) =>
        Assert.IsType<KeyRevocationOutcome.Refused>(Revoke(certificate)).Reason;

    private RevocationList? List
    {
        get
        {
            var (list, fault) = RevocationFile.Read(Folder);
            Assert.Null(fault);
            return list;
        }
    }

    [Fact]
    public void Revoke_RetiredKey_StandsOnTheListInTheFolder()
    {
        MakeKey();
        Rotate();
        using var retired = Assert.Single(RetiredCertificates.In(Folder));

        var revoked = Assert.IsType<KeyRevocationOutcome.Revoked>(Revoke(retired));

        Assert.Equal(retired.SerialNumber, Assert.Single(revoked.List.Entries).Serial);
        Assert.Equal(revoked.List.Pem, List!.Pem);
    }

    /// <summary>Whoever hands in a certificate under our name to be revoked must not be trusted for it.</summary>
    [Fact]
    public void Revoke_CertificateFromElsewhere_IsOnTheListAndNotAmongTheRetired()
    {
        MakeKey();
        using var stranger = SigningKeyMaking.SelfSigned(Organisation, At);

        var revoked = Assert.IsType<KeyRevocationOutcome.Revoked>(Revoke(stranger));

        Assert.NotNull(revoked.List.EntryOf(stranger));
        Assert.Empty(RetiredCertificates.In(Folder));
    }

    [Fact]
    public void Revoke_ManyAtOnce_LosesNoneThatWasTold()
    {
        MakeKey();
        for (var number = 0; number < 6; number++)
        {
            Rotate();
        }
        var retired = RetiredCertificates.In(Folder);
        var outcomes = new KeyRevocationOutcome[retired.Count];

        Parallel.For(0, retired.Count, number => outcomes[number] = Revoke(retired[number]));

        var told = retired
            .Where((_, number) => outcomes[number] is KeyRevocationOutcome.Revoked)
            .Select(one => one.SerialNumber)
            .Order(StringComparer.Ordinal)
            .ToList();
        Assert.NotEmpty(told);
        Assert.Equal(
            told,
            List!.Entries.Select(entry => entry.Serial).Order(StringComparer.Ordinal).ToList()
        );
        Assert.Equal(told.Count, (int)List!.Number!.Value);
    }

    [Fact]
    public void Revoke_WhileTheKeysAreChanged_IsRefusedAndChangesNothing()
    {
        MakeKey();
        Rotate();
        using var retired = Assert.Single(RetiredCertificates.In(Folder));

        using (SigningKeyFolder.Hold(Folder))
        {
            Assert.Contains("is not revoked", Refusal(retired), StringComparison.Ordinal);
        }

        Assert.Null(List);
    }

    [Fact]
    public void Revoke_WithAListThatCannotBeRead_IsRefusedAndLeavesIt()
    {
        MakeKey();
        Rotate();
        using var retired = Assert.Single(RetiredCertificates.In(Folder));
        File.WriteAllText(RevocationFile.In(Folder), "torn");

        Assert.Contains("no revocation list", Refusal(retired), StringComparison.Ordinal);
        Assert.Equal("torn", File.ReadAllText(RevocationFile.In(Folder)));
    }

    [Fact]
    public void Revoke_WithoutAKey_IsRefusedAndMakesNothing()
    {
        using var stranger = SigningKeyMaking.SelfSigned(Organisation, At);

        Assert.Contains("no signing key", Refusal(stranger), StringComparison.Ordinal);
        Assert.False(Directory.Exists(Folder));
    }
}
