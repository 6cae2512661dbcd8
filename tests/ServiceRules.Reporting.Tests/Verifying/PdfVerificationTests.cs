using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Reporting.Tests.Verifying;

public class PdfVerificationTests
{
    private const string Record = """{"note":"a (b) \\ %%EOF\nstartxref\n1 0 obj endobj stream"}""";

    private static readonly byte[] Report = SampleReport.Bytes(
        SampleReport.Json("record.json", Record),
        SampleReport.Json("assessment.json", "{}"),
        SampleReport.Json("context.json", "")
    );

    private static X509Certificate2 Own => SampleReport.Key.Certificate;

    private static VerificationCheck FirstFailure(VerifiedPdf verified) => verified.Failures.First().Check;

    [Fact]
    public void Verify_ReportAsIssued_IsGenuineWithItsAttachments()
    {
        var verified = PdfVerification.Verify(Report, VerificationGrounds.Of([Own]));

        Assert.True(verified.IsGenuine, string.Join('\n', verified.Points));
        Assert.Equal(["assessment.json", "context.json", "record.json"], verified.Attachments.Keys);
        Assert.Equal(Record, Encoding.UTF8.GetString(verified.Attachments["record.json"]));
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 6, 45, 10, TimeSpan.Zero), verified.SignedAt);
        Assert.Equal(Own.RawData, verified.Certificate!.RawData);
    }

    [Fact]
    public void Verify_ReportWithoutAttachments_IsGenuine() =>
        Assert.True(PdfVerification.Verify(SampleReport.Bytes(), VerificationGrounds.Of([Own])).IsGenuine);

    [Fact]
    public void Verify_HostileWordsOnThePageAndInTheTitle_IsGenuine()
    {
        var content = new Stack([
            new Paragraph("(unbalanced \\ %%EOF << >> \U0001F600 \u202E äß)", SampleReport.Body),
            new SignaturePlace(VisibleSignature.Of(SampleReport.Statement)),
        ]);
        var bytes = PdfReportWriter.Write(
            Pagination.LayOut(content, SampleReport.Design(), FontMeasure.Shipped),
            new DocumentTitle("Job ) ( \\ ä <&>", "(((", "en-GB", SampleReport.IssuedAt),
            [],
            SampleReport.Key
        );

        Assert.True(PdfVerification.Verify(bytes, VerificationGrounds.Of([Own])).IsGenuine);
    }

    [Fact]
    public void Verify_CertificateNotTrusted_IsIntactButNotGenuine()
    {
        using var other = SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", SampleReport.IssuedAt);

        foreach (var trusted in new X509Certificate2[][] { [], [other] })
        {
            var verified = PdfVerification.Verify(Report, VerificationGrounds.Of(trusted));
            Assert.True(verified.IsIntact);
            Assert.False(verified.IsGenuine);
            Assert.Equal([VerificationCheck.Trust], verified.Failures.Select(point => point.Check));
            Assert.Equal(3, verified.Attachments.Count);
        }
    }

    [Fact]
    public void Verify_SameContentSignedByAStranger_IsNotGenuine()
    {
        var stranger = (
            (SigningKeyOutcome.Usable)
                SigningKey.Admit(
                    SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", SampleReport.IssuedAt),
                    [],
                    SampleReport.IssuedAt,
                    "test"
                )
        ).Key;
        var forged = PdfReportWriter.Write(
            Pagination.LayOut(SampleReport.Block(), SampleReport.Design(), FontMeasure.Shipped),
            new DocumentTitle("Job", "Service report", "en-GB", SampleReport.IssuedAt),
            [],
            stranger
        );

        Assert.Equal(
            VerificationCheck.Trust,
            FirstFailure(PdfVerification.Verify(forged, VerificationGrounds.Of([Own])))
        );
    }

    [Fact]
    public void Verify_CertificateUnderATrustedRoot_IsGenuine()
    {
        var (root, key) = Chained(SampleReport.IssuedAt.AddDays(-1), SampleReport.IssuedAt.AddDays(300));
        using (root)
        using (key)
        {
            var bytes = Signed(key);

            Assert.True(PdfVerification.Verify(bytes, VerificationGrounds.Of([root])).IsGenuine);
            Assert.Equal(
                VerificationCheck.Trust,
                FirstFailure(PdfVerification.Verify(bytes, VerificationGrounds.Of([])))
            );
        }
    }

    [Fact]
    public void Verify_StatedTimeOutsideTheCertificate_IsNotGenuine()
    {
        var before = SampleReport.IssuedAt.AddDays(-1);
        var bytes = PdfReportWriter.Write(
            Pagination.LayOut(SampleReport.Block(), SampleReport.Design(), FontMeasure.Shipped),
            new DocumentTitle("Job", "Service report", "en-GB", before),
            [],
            SampleReport.Key
        );

        Assert.Equal(
            VerificationCheck.SigningCertificate,
            FirstFailure(PdfVerification.Verify(bytes, VerificationGrounds.Of([Own])))
        );
    }

    [Theory]
    [InlineData("/ByteRange[", VerificationCheck.SignedRange)]
    [InlineData("/SubFilter/ETSI", VerificationCheck.OneSignature)]
    [InlineData("/Marked ", VerificationCheck.ContentDigest)]
    [InlineData("endobj", VerificationCheck.FileShape)]
    public void Verify_OneChangedByte_NamesThePointThatFailed(string where, VerificationCheck expected)
    {
        byte[] changed = [.. Report];
        var at = Encoding.Latin1.GetString(Report).IndexOf(where, StringComparison.Ordinal);
        // The last character of the place, so that the words before it still stand; digits and letters stay such.
        var target = where.EndsWith('[') ? at + where.Length + 3 : at + where.Length - 1;
        changed[target] = where == "/Marked " ? (byte)'\n' : (byte)(changed[target] ^ 1);

        var failures = PdfVerification.Verify(changed, VerificationGrounds.Of([Own])).Failures;
        Assert.Contains(expected, failures.Select(point => point.Check));
    }

    [Fact]
    public void Verify_AnyByteOfTheSignatureItself_IsNeverGenuine()
    {
        var text = Encoding.Latin1.GetString(Report);
        var start = text.IndexOf("/Type/Sig/", StringComparison.Ordinal) - 20;
        var container = text.IndexOf("/Contents<", start, StringComparison.Ordinal) + 10;

        // Two hex digits to a byte, about 1,000 bytes of container, then the first hundred zeros of the padding.
        AssertNeverGenuine(Enumerable.Range(start, container - start + 2200));
        AssertNeverGenuine(Enumerable.Range(text.IndexOf('>', container) - 60, 300));
    }

    [Fact]
    public void Verify_PaddingDigitsFoldedOverALine_IsNotGenuine()
    {
        byte[] changed = [.. Report];
        var text = Encoding.Latin1.GetString(Report);
        var end = text.IndexOf("0>/ByteRange", StringComparison.Ordinal);
        changed.AsSpan(end - 40, 2).Fill((byte)'\n');

        Assert.Equal(
            VerificationCheck.SignatureContainer,
            PdfVerification
                .Verify(changed, VerificationGrounds.Of([Own]))
                .Failures.First(point => point.Check != VerificationCheck.Attachments)
                .Check
        );
    }

    [Fact]
    public void Verify_BytesAllOverTheFile_AreNeverGenuine()
    {
        const int Stride = 41;
        AssertNeverGenuine(Enumerable.Range(0, Report.Length / Stride).Select(index => index * Stride));
        AssertNeverGenuine(Enumerable.Range(0, 200));
        AssertNeverGenuine(Enumerable.Range(Report.Length - 300, 300));
    }

    [Fact]
    public void Verify_TruncatedAnywhere_IsNotGenuineAndNeverThrows()
    {
        for (var length = 0; length < Report.Length; length += 97)
        {
            Assert.False(
                PdfVerification.Verify(Report.AsMemory(0, length), VerificationGrounds.Of([Own])).IsGenuine
            );
        }
    }

    [Fact]
    public void Verify_RandomPiecesMixed_NeverThrows()
    {
        const int Seed = 20260302;
        var random = new Random(Seed);
        for (var round = 0; round < 300; round++)
        {
            byte[] mixed = [.. Report];
            for (var cut = 0; cut < 4; cut++)
            {
                var length = random.Next(1, 3000);
                var from = random.Next(mixed.Length - length);
                var to = random.Next(mixed.Length - length);
                Array.Copy(mixed, from, mixed, to, length);
            }
            Assert.Equal(
                mixed.AsSpan().SequenceEqual(Report),
                PdfVerification.Verify(mixed, VerificationGrounds.Of([Own])).IsGenuine
            );
        }
    }

    [Fact]
    public void Verify_LargerThanTheLimit_IsRefusedUnread()
    {
        var verified = PdfVerification.Verify(
            new byte[VerificationLimits.BytesMax + 1],
            VerificationGrounds.Of([Own])
        );

        Assert.Equal(VerificationCheck.FileShape, FirstFailure(verified));
        Assert.Equal(PointState.NotReached, verified.StateOf(VerificationCheck.ContentDigest));
    }

    private static void AssertNeverGenuine(IEnumerable<int> positions) =>
        Parallel.ForEach(
            positions,
            position =>
            {
                byte[] changed = [.. Report];
                changed[position] ^= (byte)(1 << (position % 8));
                Assert.False(
                    PdfVerification.Verify(changed, VerificationGrounds.Of([Own])).IsGenuine,
                    $"byte {position} changed unseen"
                );
            }
        );

    private static byte[] Signed(SigningKey key) =>
        PdfReportWriter.Write(
            Pagination.LayOut(SampleReport.Block(), SampleReport.Design(), FontMeasure.Shipped),
            new DocumentTitle("Job", "Service report", "en-GB", SampleReport.IssuedAt),
            [],
            key
        );

    private static (X509Certificate2 Root, SigningKey Key) Chained(DateTimeOffset from, DateTimeOffset to)
    {
        using var rootKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var rootRequest = new CertificateRequest("CN=root", rootKey, HashAlgorithmName.SHA256);
        rootRequest.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        rootRequest.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign, true));
        var root = rootRequest.CreateSelfSigned(from, to);
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=signer", key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(
            new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, true)
        );
        using var leaf = request.Create(root, from, to, [1, 2, 3, 4]);
        var outcome = SigningKey.Admit(leaf.CopyWithPrivateKey(key), [], SampleReport.IssuedAt, "test");
        return (root, ((SigningKeyOutcome.Usable)outcome).Key);
    }
}
