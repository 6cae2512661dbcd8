using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;
using ServiceRules.Reporting.Verifying;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Timestamping;

/// <summary>Reports of baseline B-T: what is issued, and what becomes of it when the time-stamp is tampered with.</summary>
public sealed class TimestampedReportTests : IDisposable
{
    private static readonly DateTimeOffset Now = TimeProvider.System.GetUtcNow();

    private readonly Scratch _scratch = new();
    private readonly StampingDesk _desk = new();
    private readonly SigningKey _key = KeyFrom(Now.AddDays(-30));

    public void Dispose()
    {
        _scratch.Dispose();
        _desk.Dispose();
        _key.Dispose();
    }

    private VerificationGrounds Grounds => new([_key.Certificate], [_desk.Root.Certificate]);

    private static SigningKey KeyFrom(DateTimeOffset from) =>
        (
            (SigningKeyOutcome.Usable)
                SigningKey.Admit(
                    SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", from),
                    [],
                    Now,
                    "test"
                )
        ).Key;

    private byte[] Issue(StampingDesk? desk = null, DateTimeOffset? at = null, IReportSigner? signer = null)
    {
        using var counter = StampingCounter.Of((desk ?? _desk).Answer);
        using var authority = HttpTimestampAuthority.At(counter.Address).Authority!;
        return Issue(authority, at ?? Now, signer ?? _key);
    }

    private static byte[] Issue(HttpTimestampAuthority? authority, DateTimeOffset at, IReportSigner signer)
    {
        var statement = new SignatureStatement(signer.Certificate, at, authority?.Host);
        return PdfReportWriter.Write(
            Pagination.LayOut(
                new SignaturePlace(VisibleSignature.Of(statement)),
                SampleReport.Design(),
                FontMeasure.Shipped
            ),
            new DocumentTitle("Job", "Service report", "en-GB", at),
            [SampleReport.Json("record.json", "{}")],
            signer,
            authority
        );
    }

    private static VerificationPoint Timestamp(VerifiedPdf verified) =>
        verified.Points.Single(point => point.Check == VerificationCheck.Timestamp);

    private static byte[] TokenOf(byte[] report, out byte[] signature)
    {
        var cms = new SignedCms();
        cms.Decode(ContainerOf(report));
        signature = cms.SignerInfos[0].GetSignature();
        return cms.SignerInfos[0].UnsignedAttributes[0].Values[0].RawData;
    }

    private static (int Start, int End) Gap(byte[] report)
    {
        var text = Encoding.Latin1.GetString(report);
        var start = text.IndexOf("/Contents<3", StringComparison.Ordinal) + 10;
        return (start, text.IndexOf('>', start));
    }

    private static byte[] ContainerOf(byte[] report)
    {
        var (start, end) = Gap(report);
        return Convert.FromHexString(report.AsSpan(start, end - start));
    }

    /// <summary>The same report with another unsigned part, which its signature does not cover.</summary>
    private static byte[] With(byte[] report, Action<SignerInfo> change)
    {
        var cms = new SignedCms();
        cms.Decode(ContainerOf(report));
        change(cms.SignerInfos[0]);
        var (start, end) = Gap(report);
        byte[] changed = [.. report];
        Encoding
            .ASCII.GetBytes(Convert.ToHexString(cms.Encode()).PadRight(end - start, '0'))
            .CopyTo(changed, start);
        return changed;
    }

    private static void RemoveToken(SignerInfo signer) =>
        signer.RemoveUnsignedAttribute(
            new AsnEncodedData(
                signer.UnsignedAttributes[0].Oid,
                signer.UnsignedAttributes[0].Values[0].RawData
            )
        );

    private static AsnEncodedData Attribute(byte[] token) => new("1.2.840.113549.1.9.16.2.14", token);

    [SkippableFact]
    public void Verify_StampedReport_IsGenuineAndTellsTheAuthoritysTime()
    {
        var verified = PdfVerification.Verify(Issue(), Grounds);

        Assert.True(verified.IsGenuine, string.Join('\n', verified.Points));
        Assert.Equal(PointState.Passed, Timestamp(verified).State);
        Assert.InRange(verified.TrustedTime!.Value, Now.AddSeconds(-2), Now.AddMinutes(5));
        Assert.Contains(
            "`CN=time desk, O=Alder Reach Parks Trust`",
            Timestamp(verified).Told,
            StringComparison.Ordinal
        );
        Assert.Single(verified.Attachments);
    }

    /// <summary>The desk says that its clock may be a second out: what is proven is the later end of that.</summary>
    [SkippableFact]
    public void Verify_AuthorityWhoseClockMayBeOut_ProvesTheLaterTime()
    {
        var report = Issue();
        Assert.True(Rfc3161TimestampToken.TryDecode(TokenOf(report, out _), out var token, out _));

        var verified = PdfVerification.Verify(report, Grounds);

        Assert.Equal(1_000_000, token.TokenInfo.AccuracyInMicroseconds);
        Assert.Equal(token.TokenInfo.Timestamp.AddSeconds(1), verified.TrustedTime);
    }

    [SkippableTheory]
    [InlineData(true, true)]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void Verify_AuthorityTrustedItselfOrByItsRoot_IsGenuine(bool sendsChain, bool trustsRoot)
    {
        using var desk = new StampingDesk(sendsChain: sendsChain);
        var anchor = trustsRoot ? desk.Root.Certificate : desk.Certificate;

        var verified = PdfVerification.Verify(Issue(desk), Grounds with { TimestampAuthorities = [anchor] });

        Assert.True(verified.IsGenuine, string.Join('\n', verified.Points));
        Assert.NotNull(verified.TrustedTime);
    }

    [SkippableFact]
    public void Verify_AuthorityWithAnotherKindOfKey_IsGenuine()
    {
        using var key = RSA.Create(2048);
        using var desk = new StampingDesk(key: key);

        var verified = PdfVerification.Verify(
            Issue(desk),
            Grounds with
            {
                TimestampAuthorities = [desk.Root.Certificate],
            }
        );

        Assert.NotNull(verified.TrustedTime);
    }

    [SkippableFact]
    public void Verify_AuthorityNotTrusted_IsIntactAndItsTimeNotEstablished()
    {
        using var other = new StampingDesk();
        var report = Issue();

        foreach (var trusted in new X509Certificate2[][] { [], [other.Root.Certificate, other.Certificate] })
        {
            var verified = PdfVerification.Verify(report, Grounds with { TimestampAuthorities = trusted });
            Assert.True(verified.IsIntact);
            Assert.False(verified.IsGenuine);
            Assert.Null(verified.TrustedTime);
            Assert.Equal(PointState.NotEstablished, Timestamp(verified).State);
            Assert.Contains("is not trusted here", Timestamp(verified).Told, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Verify_ReportWithoutTimestamp_IsGenuineAndSaysOnWhoseClockItRests()
    {
        var verified = PdfVerification.Verify(
            SampleReport.Bytes(),
            VerificationGrounds.Of([SampleReport.Key.Certificate])
        );

        Assert.True(verified.IsGenuine);
        Assert.Equal(PointState.NotClaimed, Timestamp(verified).State);
        Assert.Contains(
            "clock of the issuing machine alone",
            Timestamp(verified).Told,
            StringComparison.Ordinal
        );
    }

    [SkippableFact]
    public void OutsideTools_StampedReport_FindSignatureAndTokenGood()
    {
        var report = Issue();
        var path = _scratch.Write("report.pdf", report);
        var openssl = Tool.Require("openssl");
        var (start, end) = Gap(report);

        var said = Tool.Require("pdfsig").Run(path).StandardOutput;
        var checkedShape = Tool.Require("qpdf").Run("--check", path);
        var cades = openssl.Run(
            "cms",
            "-verify",
            "-binary",
            "-inform",
            "DER",
            "-cades",
            "-in",
            _scratch.Write("signature.der", ContainerOf(report)),
            "-content",
            _scratch.Write("content.bin", [.. report[..(start - 1)], .. report[(end + 1)..]]),
            "-CAfile",
            _scratch.Write("root.pem", Encoding.ASCII.GetBytes(_key.CertificatePem)),
            "-out",
            _scratch.At("out.bin")
        );
        var token = TokenOf(report, out var signature);
        var stamp = _desk.Check(token, signature);

        Assert.Contains("Signature is Valid.", said, StringComparison.Ordinal);
        Assert.Contains("Total document signed", said, StringComparison.Ordinal);
        Assert.True(checkedShape.ExitCode == 0, checkedShape.ToString());
        Assert.True(cades.ExitCode == 0, cades.ToString());
        Assert.True(stamp.ExitCode == 0, stamp.ToString());
    }

    [SkippableFact]
    public void Verify_TimestampTakenOut_IsNoticed()
    {
        var report = Issue();
        var (start, end) = Gap(report);
        // Only the holder of the key can sign again, but what is left is just what a thief of time-stamps would leave.
        var bare = BaselineSignature.Over([.. report[..(start - 1)], .. report[(end + 1)..]], _key);
        Encoding.ASCII.GetBytes(Convert.ToHexString(bare).PadRight(end - start, '0')).CopyTo(report, start);

        var verified = PdfVerification.Verify(report, Grounds);

        Assert.False(verified.IsIntact);
        Assert.Contains("was taken out", Timestamp(verified).Told, StringComparison.Ordinal);
        Assert.Empty(verified.Attachments);
    }

    [SkippableFact]
    public void Verify_UnsignedAttributesWithNothingInThem_AreNotGenuine() =>
        Assert.Equal(
            VerificationCheck.SignatureContainer,
            PdfVerification.Verify(With(Issue(), RemoveToken), Grounds).Failures.First().Check
        );

    [SkippableFact]
    public async Task Verify_TimestampPutIn_IsNoticed()
    {
        var report = Issue(authority: null, Now, _key);
        var cms = new SignedCms();
        cms.Decode(ContainerOf(report));
        using var counter = StampingCounter.Of(_desk.Answer);
        using var authority = HttpTimestampAuthority.At(counter.Address).Authority!;
        var token = await authority.StampAsync(cms.SignerInfos[0].GetSignature());

        var verified = PdfVerification.Verify(
            With(report, signer => signer.AddUnsignedAttribute(Attribute(token))),
            Grounds
        );

        Assert.False(verified.IsIntact);
        Assert.Contains("was put in", Timestamp(verified).Told, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Verify_TimestampOfAnotherReport_IsNotGenuine()
    {
        var other = TokenOf(Issue(), out _);

        var verified = PdfVerification.Verify(
            With(
                Issue(),
                signer =>
                {
                    RemoveToken(signer);
                    signer.AddUnsignedAttribute(Attribute(other));
                }
            ),
            Grounds
        );

        Assert.False(verified.IsIntact);
        Assert.Contains("for another signature", Timestamp(verified).Told, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Verify_TwoTimestampsOrAnotherAttribute_IsNotGenuine()
    {
        var report = Issue();
        var token = TokenOf(report, out _);
        var twice = With(report, signer => signer.AddUnsignedAttribute(Attribute(token)));
        var named = With(report, signer => signer.AddUnsignedAttribute(new Pkcs9DocumentName("x")));

        foreach (var changed in new[] { twice, named })
        {
            Assert.Equal(
                VerificationCheck.SignatureContainer,
                PdfVerification.Verify(changed, Grounds).Failures.First().Check
            );
        }
    }

    [SkippableFact]
    public void Verify_StrangersCertificateInTheToken_IsNotGenuine()
    {
        var report = Issue();
        var cms = new SignedCms();
        cms.Decode(TokenOf(report, out _));
        cms.AddCertificate(_key.Certificate);
        var stuffed = cms.Encode();

        var verified = PdfVerification.Verify(
            With(
                report,
                signer =>
                {
                    RemoveToken(signer);
                    signer.AddUnsignedAttribute(Attribute(stuffed));
                }
            ),
            Grounds
        );

        Assert.False(verified.IsIntact);
    }

    /// <summary>Anybody can make another certificate with the name and number of the authority's issuer.</summary>
    [SkippableFact]
    public void Verify_CertificateWithTheAuthoritysNumberInTheToken_IsNotGenuine()
    {
        var report = Issue();
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var twin = new CertificateRequest("CN=twin", key, HashAlgorithmName.SHA256).Create(
            _desk.Certificate.IssuerName,
            X509SignatureGenerator.CreateForECDsa(key),
            Now.AddDays(-1),
            Now.AddDays(1),
            _desk.Certificate.SerialNumberBytes.Span
        );
        Assert.True(twin.Equals(_desk.Certificate), "the platform takes one for the other");
        var cms = new SignedCms();
        cms.Decode(TokenOf(report, out _));
        cms.AddCertificate(twin);
        var stuffed = cms.Encode();

        var verified = PdfVerification.Verify(
            With(
                report,
                signer =>
                {
                    RemoveToken(signer);
                    signer.AddUnsignedAttribute(Attribute(stuffed));
                }
            ),
            Grounds
        );

        Assert.False(verified.IsIntact);
        Assert.Contains("another one with its number", Timestamp(verified).Told, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Verify_AnyByteOfTheContainer_IsNeverGenuine()
    {
        var report = Issue();
        var (start, _) = Gap(report);
        var container = ContainerOf(report);
        var length = container.AsSpan().LastIndexOfAnyExcept((byte)0) + 1;

        Parallel.For(
            0,
            length,
            at =>
            {
                byte[] changed = [.. report];
                var other = (byte)(container[at] ^ (1 << (at % 8)));
                Encoding.ASCII.GetBytes(Convert.ToHexString([other])).CopyTo(changed, start + (2 * at));
                Assert.False(
                    PdfVerification.Verify(changed, Grounds).IsGenuine,
                    $"byte {at} of {length} changed unseen"
                );
            }
        );
    }

    [SkippableFact]
    public void Issue_AuthorityWhoseCertificateHasEnded_MakesNoReport()
    {
        using var desk = new StampingDesk(Now.AddYears(-2), Now.AddDays(-1));

        var refusal = Assert.Throws<TimestampException>(() => Issue(desk));

        Assert.Contains("was not valid at", refusal.Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Issue_ClockOfTheIssuingMachineFarOff_MakesNoReport()
    {
        foreach (var at in new[] { Now.AddHours(-1), Now.AddHours(1) })
        {
            var refusal = Assert.Throws<TimestampException>(() => Issue(at: at));
            Assert.Contains("set the clock", refusal.Message, StringComparison.Ordinal);
        }
    }

    [SkippableFact]
    public void Issue_SigningCertificateNotYetValidAtTheTimestamp_MakesNoReport()
    {
        using var early = KeyFrom(Now.AddDays(-1));
        using var late = SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", Now.AddMinutes(8));

        var refusal = Assert.Throws<TimestampException>(() =>
            Issue(at: Now.AddMinutes(9), signer: Signing.RemoteSigner.Of(late))
        );

        Assert.Contains(
            "was not valid at the time of the time-stamp",
            refusal.Message,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Issue_AuthorityThatAnswersNonsense_MakesNoReport()
    {
        using var counter = StampingCounter.Of(_ => [1, 2, 3]);
        using var authority = HttpTimestampAuthority.At(counter.Address).Authority!;

        Assert.Throws<TimestampException>(() => Issue(authority, Now, _key));
    }

    [SkippableFact]
    public void Page_StampedReport_SaysOnWhoseClockItsTimesRest()
    {
        var path = _scratch.Write("report.pdf", Issue());

        var said = Tool.Require("pdftotext").Run("-layout", path, "-").StandardOutput;

        Assert.Contains("Time, by the clock of the issuing machine", said, StringComparison.Ordinal);
        Assert.Contains(
            "Time-stamp (RFC 3161) inside the signature, asked of: 127.0.0.1:",
            said,
            StringComparison.Ordinal
        );
    }
}
