using System.Text;
using System.Text.RegularExpressions;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Tests.Reports;
using ServiceRules.Reporting.Verifying;
using ServiceRules.Reporting.Verifying.Shape;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>
/// Tokens that run into each other (ISO 32000-2, 7.2.3: white space or a delimiter ends one). What a viewer makes of
/// them is its own affair, so that a signer could show other pages than those held against the evidence.
/// </summary>
public sealed partial class TokenTests
{
    private static readonly byte[] Report = JobReport.Write(
        SampleJobs.FullService,
        ReportTerms.Default,
        SampleReport.Key,
        SampleReport.IssuedAt
    );

    private static (PdfValue? Value, string? Fault) Read(string text)
    {
        var scanner = new PdfScanner(Encoding.Latin1.GetBytes(text), 0, text.Length);
        return (scanner.ReadValue(), scanner.Fault);
    }

    private static VerifiedReport Verify(ForgedReport forged) =>
        new VerifyReport(
            new PdfReportReader([SampleReport.Key.Certificate]),
            new Judge(),
            new ReportRedrawing()
        ).Verify(forged.Sign(SampleReport.Key));

    [Theory]
    [InlineData("[1 0 R/Name(text)<41>[2 0 R]<</A 1/B true>>]")]
    [InlineData("[12.5 -3 0 0.25 007 true false null/x]")]
    [InlineData("<</A/B/C<</D 3 0 R>>/E[1 2]>>")]
    public void ReadValue_TokensEndedByADelimiter_AreRead(string text)
    {
        var (value, fault) = Read(text);

        Assert.True(value is not null, fault);
    }

    [Theory]
    [InlineData("[9 0 R 169 0 R350 0 R]")]
    [InlineData("[1 0 Rx]")]
    [InlineData("[1 0R]")]
    [InlineData("[truex]")]
    [InlineData("[null0]")]
    [InlineData("[12.5R]")]
    [InlineData("[12.5.5]")]
    [InlineData("[1-2]")]
    [InlineData("[--1]")]
    [InlineData("[-]")]
    [InlineData("[.]")]
    [InlineData("[09 0 R]")]
    [InlineData("[1{]")]
    [InlineData("[/A\u0080]")]
    [InlineData("<</A\t1>>")]
    [InlineData("<</A 1%\n>>")]
    public void ReadValue_TokensThatRunIntoEachOther_AreRefused(string text)
    {
        var (value, fault) = Read(text);

        Assert.Null(value);
        Assert.NotNull(fault);
    }

    [Theory]
    [InlineData("/Type/Pages", "Kids")]
    [InlineData("/S/Document", "K")]
    [InlineData("/Type/Catalog", "AF")]
    public void Verify_ReferencesGluedTogether_IsNotGenuine(string words, string key)
    {
        var forged = new ForgedReport(Report);
        var holder = forged.Find(words);
        var list = Regex.Match(forged[holder], $@"/{key}\[[^\]]*\]", RegexOptions.CultureInvariant);
        Assert.True(Gap().IsMatch(list.Value), list.Value);
        forged[holder] = forged[holder]
            .Replace(list.Value, Gap().Replace(list.Value, "R$1", 1), StringComparison.Ordinal);

        Assert.Equal(ReportStanding.NotGenuine, Verify(forged).Standing);
    }

    [Theory]
    [InlineData("% Created with", "% May go out. Created with")]
    [InlineData("/ID[<", "/ID[<00")]
    public void Verify_TrailerThatSaysMore_IsNotGenuine(string from, string to)
    {
        var forged = new ForgedReport(Report);
        forged.ChangeTrailer(from, to);

        Assert.Equal(ReportStanding.NotGenuine, Verify(forged).Standing);
    }

    [GeneratedRegex(@"R[ \n](\d)")]
    private static partial Regex Gap();
}
