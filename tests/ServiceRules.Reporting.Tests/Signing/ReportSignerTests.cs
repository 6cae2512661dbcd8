using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Tests.Reports;
using ServiceRules.Reporting.Verifying;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Signing;

public sealed class ReportSignerTests : IDisposable
{
    private readonly Scratch _scratch = new();
    private readonly X509Certificate2 _own = SigningKeyMaking.SelfSigned(
        "Alder Reach Parks Trust",
        SampleReport.IssuedAt
    );

    public void Dispose()
    {
        _scratch.Dispose();
        _own.Dispose();
    }

    [SkippableFact]
    public void Write_SignerWithoutAPrivateKeyToExport_GivesAReportThatIsGenuine()
    {
        var signer = RemoteSigner.Of(_own);

        var report = JobReport.Write(
            SampleJobs.FullService,
            ReportTerms.Default,
            signer,
            SampleReport.IssuedAt
        );

        Assert.False(signer.Certificate.HasPrivateKey);
        Assert.Equal(1, signer.Asked);
        Assert.True(PdfVerification.Verify(report, VerificationGrounds.Of([signer.Certificate])).IsGenuine);
        var said = Tool.Require("pdfsig").Run(_scratch.Write("report.pdf", report)).StandardOutput;
        Assert.Contains("Signature is Valid.", said, StringComparison.Ordinal);
        Assert.Contains("Total document signed", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Over_SignerThatAnswersWithAnotherKey_MakesNoSignature()
    {
        using var stranger = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var signer = new RemoteSigner(_own, digest => stranger.SignHash(digest));

        var refusal = Assert.Throws<CryptographicException>(() => BaselineSignature.Over([1, 2], signer));

        Assert.Contains("is no signature by the key", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Over_SignerThatAnswersWithNonsense_MakesNoSignature() =>
        Assert.Throws<CryptographicException>(() =>
            BaselineSignature.Over([1, 2], new RemoteSigner(_own, _ => [1, 2, 3]))
        );

    [Fact]
    public void Write_SignerWhoseCertificateHasEnded_IsRefused()
    {
        var refusal = Assert.Throws<InvalidOperationException>(() =>
            JobReport.Write(
                SampleJobs.FullService,
                ReportTerms.Default,
                RemoteSigner.Of(_own),
                SampleReport.IssuedAt.AddYears(11)
            )
        );

        Assert.Contains("ended at 2036-03-02", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ExportParameters_KeyBehindASigner_HasNoPrivatePart()
    {
        using var key = new SignerKey(RemoteSigner.Of(_own));

        Assert.Null(key.ExportParameters(includePrivateParameters: false).D);
        Assert.Throws<CryptographicException>(() => key.ExportParameters(includePrivateParameters: true));
    }

    [Fact]
    public void SignatureReason_WhatItSays_IsReadAgain()
    {
        foreach (var host in new[] { null, "tsa.example", "127.0.0.1:8080", "[::1]:443" })
        {
            Assert.True(SignatureReason.TryRead(SignatureReason.Of(host), out var read));
            Assert.Equal(host, read);
        }
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("Issued service report.")]
    [InlineData("Issued service report; time-stamp asked of ")]
    [InlineData("Issued service report; time-stamp asked of a(b)")]
    public void SignatureReason_OtherWords_AreNotRead(string? reason) =>
        Assert.False(SignatureReason.TryRead(reason, out _));
}
