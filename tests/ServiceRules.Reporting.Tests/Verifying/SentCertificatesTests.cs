using System.Globalization;
using System.Numerics;
using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Verifying;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>Reports by a key that an authority issued, with its issuers sent along.</summary>
public sealed class SentCertificatesTests : IDisposable
{
    private static readonly DateTimeOffset At = SampleReport.IssuedAt;

    private readonly Authority _root = Authority.Root("CN=root", At.AddYears(-1), At.AddYears(9));
    private readonly Authority _between;
    private readonly ECDsa _key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly X509Certificate2 _own;

    public SentCertificatesTests()
    {
        _between = _root.Under("CN=between");
        _own = _between.Issue("CN=signer", _key);
    }

    public void Dispose()
    {
        _root.Dispose();
        _between.Dispose();
        _key.Dispose();
        _own.Dispose();
    }

    private SigningKey Key(params X509Certificate2[] others) =>
        Assert
            .IsType<SigningKeyOutcome.Usable>(
                SigningKey.Admit(
                    _own.CopyWithPrivateKey(_key),
                    [.. others.Select(one => X509CertificateLoader.LoadCertificate(one.RawData))],
                    At,
                    "test"
                )
            )
            .Key;

    private byte[] Report(params X509Certificate2[] others)
    {
        using var key = Key(others);
        return PdfReportWriter.Write(
            Pagination.LayOut(SampleReport.Block(), SampleReport.Design(), FontMeasure.Shipped),
            new DocumentTitle("Job", "Service report", "en-GB", At),
            [],
            key
        );
    }

    private static VerifiedPdf Verify(byte[] report, params X509Certificate2[] trusted) =>
        PdfVerification.Verify(report, VerificationGrounds.Of(trusted));

    private static (int Start, int End) Gap(byte[] report)
    {
        var text = Encoding.Latin1.GetString(report);
        var start = text.IndexOf("/Contents<3", StringComparison.Ordinal) + 10;
        return (start, text.IndexOf('>', start));
    }

    private static byte[] With(byte[] report, Func<byte[], byte[]> change)
    {
        var (start, end) = Gap(report);
        var container = Convert.FromHexString(report.AsSpan(start, end - start));
        byte[] changed = [.. report];
        Encoding
            .ASCII.GetBytes(Convert.ToHexString(change(container)).PadRight(end - start, '0'))
            .CopyTo(changed, start);
        return changed;
    }

    [Fact]
    public void Verify_AnyOfTheChainTrusted_IsGenuine()
    {
        var report = Report(_between.Certificate, _root.Certificate);
        X509Certificate2[][] trusted =
        [
            [_own],
            [_between.Certificate],
            [_root.Certificate],
            [_own, _root.Certificate],
            [_between.Certificate, _own, SampleReport.Key.Certificate],
        ];

        Assert.All(
            trusted,
            anchors =>
            {
                var verified = Verify(report, anchors);
                Assert.True(verified.IsGenuine, string.Join('\n', verified.Points));
            }
        );
        Assert.False(Verify(report, SampleReport.Key.Certificate).IsTrusted);
        Assert.False(Verify(report).IsTrusted);
    }

    /// <summary>Somebody without the authority's key makes a certificate in its name.</summary>
    [Fact]
    public void Verify_CertificateThatTheTrustedIssuerNeverSigned_IsNotTrusted()
    {
        using var forger = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=signer", _key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.NonRepudiation, true));
        using var forged = request.Create(
            _between.Certificate.SubjectName,
            X509SignatureGenerator.CreateForECDsa(forger),
            At.AddDays(-1),
            At.AddDays(9),
            [7]
        );

        Assert.False(IssuerChain.LeadsTo(forged, [], _between.Certificate, At));
        Assert.False(IssuerChain.LeadsTo(forged, [_between.Certificate], _root.Certificate, At));
        Assert.True(IssuerChain.LeadsTo(_own, [], _between.Certificate, At));
    }

    /// <summary>A key that signs reports is no authority, trusted or not.</summary>
    [Fact]
    public void Verify_CertificateIssuedByATrustedSigner_IsNotTrusted()
    {
        using var signer = SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", At.AddDays(-1));
        using var other = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var issued = new CertificateRequest("CN=x", other, HashAlgorithmName.SHA256).Create(
            signer.SubjectName,
            X509SignatureGenerator.CreateForECDsa(signer.GetECDsaPrivateKey()!),
            At.AddDays(-1),
            At.AddDays(9),
            [7]
        );

        Assert.False(IssuerChain.LeadsTo(issued, [], signer, At));
    }

    [Fact]
    public void Verify_IssuerOutOfItsTime_LeadsNowhere() =>
        Assert.False(IssuerChain.LeadsTo(_own, [], _between.Certificate, At.AddYears(20)));

    [Fact]
    public void Verify_CertificateAddedOrTakenOut_IsNotIntact()
    {
        var report = Report(_between.Certificate);
        var added = With(
            report,
            container => Changed(container, cms => cms.AddCertificate(_root.Certificate))
        );
        var taken = With(
            report,
            container => Changed(container, cms => cms.RemoveCertificate(_between.Certificate))
        );

        Assert.True(Verify(report, _own).IsIntact);
        Assert.All([added, taken], changed => Assert.False(Verify(changed, _own).IsIntact));
    }

    private static byte[] Changed(byte[] container, Action<SignedCms> change)
    {
        var cms = new SignedCms();
        cms.Decode(container);
        change(cms);
        return cms.Encode();
    }

    /// <summary>FIPS 186-5: (r, s) and (r, n - s) verify alike; only one of them may be genuine.</summary>
    [Fact]
    public void Verify_TheOtherFormOfTheSignature_IsNotIntact()
    {
        var report = Report();
        var cms = new SignedCms();
        var (start, end) = Gap(report);
        cms.Decode(Convert.FromHexString(report.AsSpan(start, end - start)));
        var signature = cms.SignerInfos[0].GetSignature();
        var reader = new System.Formats.Asn1.AsnReader(signature, System.Formats.Asn1.AsnEncodingRules.DER);
        var pair = reader.ReadSequence();
        var (r, s) = (pair.ReadInteger(), pair.ReadInteger());
        var order = BigInteger.Parse(
            "00FFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551",
            NumberStyles.AllowHexSpecifier,
            CultureInfo.InvariantCulture
        );
        var writer = new System.Formats.Asn1.AsnWriter(System.Formats.Asn1.AsnEncodingRules.DER);
        using (writer.PushSequence())
        {
            writer.WriteInteger(r);
            writer.WriteInteger(order - s);
        }
        var other = writer.Encode();

        Assert.True(s * 2 < order);
        Assert.Equal(
            VerificationCheck.SignatureContainer,
            Verify(With(report, container => Swapped(container, signature, other)), _own)
                .Failures.First()
                .Check
        );
    }

    // The lengths around the signature change with it: by the sizes of the DER forms of s and n - s.
    private static byte[] Swapped(byte[] container, byte[] signature, byte[] other)
    {
        var at = container.AsSpan().IndexOf(signature);
        var longer = other.Length - signature.Length;
        byte[] swapped = [.. container[..at], .. other, .. container[(at + signature.Length)..]];
        swapped[at - 1] = (byte)other.Length;
        foreach (var length in OuterLengths(container, at))
        {
            var value = (swapped[length] << 8) + swapped[length + 1] + longer;
            (swapped[length], swapped[length + 1]) = ((byte)(value >> 8), (byte)(value & 0xFF));
        }
        return swapped[..container.Length];
    }

    // Offsets of the two-byte lengths of all constructed values that hold the place.
    private static IEnumerable<int> OuterLengths(byte[] container, int place)
    {
        for (var at = 0; at < place; at++)
        {
            if (
                container[at] is 0x30 or 0x31 or 0xA0
                && container[at + 1] == 0x82
                && at + 4 + (container[at + 2] << 8) + container[at + 3] > place
                && at + 4 + (container[at + 2] << 8) + container[at + 3] <= container.Length
            )
            {
                yield return at + 2;
            }
        }
    }

    [Fact]
    public void Of_AnySignature_IsTheLowFormAndVerifies()
    {
        using var curve = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var digest = SHA256.HashData([1, 2, 3]);
        for (var turn = 0; turn < 40; turn++)
        {
            var signature = LowSignature.Of(curve.SignHash(digest));
            var s = new BigInteger(signature.AsSpan(32), isUnsigned: true, isBigEndian: true);
            Assert.True(LowSignature.IsLow(s));
            Assert.True(curve.VerifyHash(digest, signature));
        }
    }

    [Fact]
    public void MissingIssuer_TopOfTheChainNotThere_IsNamed()
    {
        using var alone = Key();
        using var halfway = Key(_between.Certificate);
        using var whole = Key(_between.Certificate, _root.Certificate);

        Assert.Equal("CN=between", alone.MissingIssuer);
        Assert.Equal("CN=root", halfway.MissingIssuer);
        Assert.Null(whole.MissingIssuer);
        Assert.Null(SampleReport.Key.MissingIssuer);
    }
}
