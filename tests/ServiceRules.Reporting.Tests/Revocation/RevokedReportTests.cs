using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Revocation;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Tests.Signing;
using ServiceRules.Reporting.Timestamping;
using ServiceRules.Reporting.Verifying;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Revocation;

/// <summary>What becomes of a report when its key is revoked.</summary>
public sealed class RevokedReportTests : IDisposable
{
    private const string Organisation = "Alder Reach Parks Trust";

    private static readonly DateTimeOffset Now = TimeProvider.System.GetUtcNow();
    private static readonly DateTimeOffset Issued = Now.AddMinutes(-2);

    private readonly X509Certificate2 _key = SigningKeyMaking.SelfSigned(Organisation, Now.AddDays(-30));
    private readonly X509Certificate2 _next = SigningKeyMaking.SelfSigned(Organisation, Now.AddDays(-1));

    public void Dispose()
    {
        _key.Dispose();
        _next.Dispose();
    }

    private static byte[] Report(X509Certificate2 key, ITimestampAuthority? authority = null) =>
        PdfReportWriter.Write(
            Pagination.LayOut(
                new SignaturePlace(new Paragraph("signed", SampleReport.Body)),
                SampleReport.Design(),
                FontMeasure.Shipped
            ),
            new DocumentTitle("Job", "Service report", "en-GB", Issued),
            [SampleReport.Json("record.json", "{}")],
            RemoteSigner.Of(key),
            authority
        );

    private static RevocationList ListBy(
        X509Certificate2 signer,
        X509Certificate2 revoked,
        X509RevocationReason reason,
        DateTimeOffset from
    ) =>
        RevocationListMaking.Make(
            RemoteSigner.Of(signer),
            null,
            [new RevokedCertificate(revoked.SerialNumber, from, reason)],
            Now
        );

    private VerificationGrounds Grounds(params RevocationList[] lists) =>
        new([_key, _next], [])
        {
            Revocations = lists,
            AsksForRevocation = true,
            CheckedAt = Now,
        };

    private static VerificationPoint Point(VerifiedPdf verified) =>
        verified.Points.Single(point => point.Check == VerificationCheck.Revocation);

    private void AssertFound(PointState state, string told, byte[] report, VerificationGrounds grounds)
    {
        var verified = PdfVerification.Verify(report, grounds);
        var point = Point(verified);
        Assert.True(point.State == state, point.ToString());
        Assert.Contains(told, point.Told, StringComparison.Ordinal);
        Assert.Equal(state is PointState.Passed or PointState.NotClaimed, verified.IsGenuine);
        Assert.True(verified.IsIntact, "nobody changed a byte");
    }

    [Fact]
    public void Verify_NoListGiven_SaysThatNobodyAsked() =>
        AssertFound(PointState.NotClaimed, "not asked", Report(_key), Grounds());

    [Fact]
    public void Verify_KeyNotOnTheList_IsGenuine() =>
        AssertFound(PointState.Passed, "is not on the list of", Report(_key), Grounds(ListOfAThird()));

    private RevocationList ListOfAThird()
    {
        using var third = SigningKeyMaking.SelfSigned(Organisation, Now.AddDays(-40));
        return ListBy(_next, third, X509RevocationReason.KeyCompromise, Now.AddDays(-9));
    }

    /// <summary>Whoever stole a key can sign a list that leaves it out.</summary>
    [Fact]
    public void Verify_ListByTheVeryKeyThatLeavesItOut_ProvesNothingOfIt()
    {
        var asked = Grounds(ListBy(_next, _key, X509RevocationReason.KeyCompromise, Now.AddDays(-9)));

        AssertFound(PointState.NotClaimed, "of that key it proves nothing", Report(_next), asked);
    }

    /// <summary>A list made here holds from now until the certificate that signs it ends, ten years from yesterday.</summary>
    [Theory]
    [InlineData(11)]
    [InlineData(-1)]
    [InlineData(null)]
    public void Verify_ListOfAnotherTime_RevokesStillAndClearsNothing(int? years)
    {
        DateTimeOffset? at = years is { } given ? Now.AddYears(given) : null;

        AssertFound(
            PointState.NotEstablished,
            "says nothing of what is revoked at another time",
            Report(_key),
            Grounds(ListOfAThird()) with
            {
                CheckedAt = at,
            }
        );
        AssertFound(
            PointState.Failed,
            "is revoked from",
            Report(_key),
            Grounds(ListBy(_next, _key, X509RevocationReason.KeyCompromise, Now.AddDays(-9))) with
            {
                CheckedAt = at,
            }
        );
    }

    [Fact]
    public void Verify_CertificateThatHasEndedSince_IsGenuineAndToldSo()
    {
        var verified = PdfVerification.Verify(
            Report(_key),
            new VerificationGrounds([_key], []) { CheckedAt = Now.AddYears(11) }
        );

        Assert.True(verified.IsGenuine, string.Join('\n', verified.Points));
        Assert.Contains(
            "it has ended since, at ",
            verified.Points.Single(point => point.Check == VerificationCheck.SigningCertificate).Told,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(X509RevocationReason.KeyCompromise)]
    [InlineData(X509RevocationReason.Unspecified)]
    [InlineData(X509RevocationReason.PrivilegeWithdrawn)]
    public void Verify_CompromisedKeyAndNoTrustedTime_IsNotGenuineWhateverTimeItStates(
        X509RevocationReason reason
    )
    {
        foreach (var from in new[] { Issued.AddDays(-1), Issued.AddMinutes(1) })
        {
            AssertFound(
                PointState.Failed,
                "its stated time proves nothing",
                Report(_key),
                Grounds(ListBy(_next, _key, reason, from))
            );
        }
    }

    [Theory]
    [InlineData(X509RevocationReason.Superseded)]
    [InlineData(X509RevocationReason.CessationOfOperation)]
    public void Verify_KeyGivenUpInGoodOrder_IsTakenAtItsStatedTime(X509RevocationReason reason)
    {
        AssertFound(
            PointState.Passed,
            "the stated time is before that, by the clock of the issuing machine alone",
            Report(_key),
            Grounds(ListBy(_next, _key, reason, Issued.AddMinutes(1)))
        );
        AssertFound(
            PointState.Failed,
            "states a time that is not before that",
            Report(_key),
            Grounds(ListBy(_next, _key, reason, Issued.AddDays(-1)))
        );
    }

    [SkippableFact]
    public void Verify_CompromisedKeyButTimestampedBefore_StaysGenuineAndSaysWhy()
    {
        using var desk = new StampingDesk();
        using var counter = StampingCounter.Of(desk.Answer);
        using var authority = HttpTimestampAuthority.At(counter.Address).Authority!;
        var report = Report(_key, authority);
        var later = ListBy(_next, _key, X509RevocationReason.KeyCompromise, Now.AddHours(1));
        var earlier = ListBy(_next, _key, X509RevocationReason.KeyCompromise, Now.AddHours(-1));
        var trusting = Grounds() with { TimestampAuthorities = [desk.Root.Certificate] };

        AssertFound(
            PointState.Passed,
            "signed before, as the time-stamp proves",
            report,
            trusting with
            {
                Revocations = [later],
            }
        );
        AssertFound(
            PointState.Failed,
            "the time-stamp is not from before that",
            report,
            trusting with
            {
                Revocations = [earlier],
            }
        );
        Assert.Equal(PointState.Failed, Point(PdfVerification.Verify(report, Grounds(later))).State);
    }

    [SkippableFact]
    public void Verify_TimestampAuthorityRevoked_ProvesNoTime()
    {
        using var desk = new StampingDesk();
        using var counter = StampingCounter.Of(desk.Answer);
        using var authority = HttpTimestampAuthority.At(counter.Address).Authority!;
        var report = Report(_key, authority);
        var list = ListBy(
            desk.Root.Certificate,
            desk.Certificate,
            X509RevocationReason.KeyCompromise,
            Now.AddHours(1)
        );

        var verified = PdfVerification.Verify(
            report,
            Grounds(list) with
            {
                TimestampAuthorities = [desk.Root.Certificate],
                AsksForRevocation = false,
            }
        );

        Assert.Null(verified.TrustedTime);
        Assert.False(verified.IsGenuine);
        var told = verified.Points.Single(point => point.Check == VerificationCheck.Timestamp);
        Assert.Equal(PointState.NotEstablished, told.State);
        Assert.Contains("revoked", told.Told, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_ListByAStranger_SettlesNothing()
    {
        using var stranger = SigningKeyMaking.SelfSigned(Organisation, Now.AddDays(-1));

        AssertFound(
            PointState.NotEstablished,
            "not signed by a certificate that is trusted here",
            Report(_key),
            Grounds(ListBy(stranger, _key, X509RevocationReason.KeyCompromise, Issued.AddDays(-1)))
        );
    }

    [Fact]
    public void Verify_ListByTheKeyItself_SettlesNothing() =>
        AssertFound(
            PointState.NotEstablished,
            "the very key that it revokes",
            Report(_key),
            Grounds(ListBy(_key, _key, X509RevocationReason.KeyCompromise, Issued.AddDays(-1)))
        );

    /// <summary>A thief of the old key revokes its successor, which had revoked it.</summary>
    [Fact]
    public void Verify_TwoKeysThatRevokeOneAnother_SettleNothing()
    {
        var lists = Grounds(
            ListBy(_next, _key, X509RevocationReason.KeyCompromise, Now.AddDays(-2)),
            ListBy(_key, _next, X509RevocationReason.KeyCompromise, Now.AddDays(-3))
        );

        AssertFound(PointState.NotEstablished, "another list gives as compromised", Report(_next), lists);
        AssertFound(PointState.NotEstablished, "another list gives as compromised", Report(_key), lists);
    }

    [Fact]
    public void Verify_ListOfAnotherIssuer_SettlesNothingForWhoAsked()
    {
        using var other = SigningKeyMaking.SelfSigned("Somebody else", Now.AddDays(-1));
        var list = ListBy(other, other, X509RevocationReason.Superseded, Now);

        AssertFound(PointState.NotEstablished, "no list of", Report(_key), Grounds(list));
        AssertFound(
            PointState.NotClaimed,
            "no list of",
            Report(_key),
            Grounds(list) with
            {
                AsksForRevocation = false,
            }
        );
    }

    [Fact]
    public void Verify_CertificateOfAnAuthority_IsHeldAgainstTheAuthoritysList()
    {
        using var root = Authority.Root("CN=root", Now.AddYears(-1), Now.AddYears(1));
        using var curve = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var bare = root.Issue("CN=signer", curve);
        using var key = bare.CopyWithPrivateKey(curve);
        var grounds = Grounds(
            ListBy(root.Certificate, key, X509RevocationReason.KeyCompromise, Now.AddDays(-1))
        );

        AssertFound(
            PointState.Failed,
            "is revoked from",
            Report(key),
            grounds with
            {
                Signers = [root.Certificate],
            }
        );
    }
}
