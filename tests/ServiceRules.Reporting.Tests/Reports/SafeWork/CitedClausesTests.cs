using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Site;
using ServiceRules.Evidence;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

/// <summary>Which text a report cites: the one that the site names, and none where it names none.</summary>
public sealed class CitedClausesTests
{
    private const string UnitedStates = "us-29-cfr-1910-147";

    private static Assessed Judge(params ImmutableArray<string> jurisdictions)
    {
        var record = SafeWorkSamples.SecondWithoutLock;
        AssessmentContext context = ContextFreezer.Freeze(SampleJobs.DemoSite, record) with
        {
            Jurisdictions = jurisdictions,
        };
        var book = SampleJobs.DemoBook;
        return new Judge().Decide(
            (record, Canonical(RecordFormat.Current.Write(record))),
            (context, Canonical(ContextFormat.Current.Write(context))),
            (book, Canonical(RulePackFormat.Book.Write(book)))
        );
    }

    private static CanonicalDocument Canonical(byte[] written) =>
        CanonicalJson.Canonicalise(written).TryGet(out var document, out var refusal)
            ? document
            : throw new InvalidOperationException(refusal.ToString());

    private static string Words(Assessed job) =>
        Layout.Printable.Of(
            string.Concat(
                SafeWorkReport
                    .LayOut(job, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped)
                    .Texts()
                    .Select(text => text.Content)
            )
        );

    [Fact]
    public void LayOut_SiteThatNamesAText_CitesItsClausesAndWhatComesBeforeThem()
    {
        var printed = Words(Judge(UnitedStates));

        var pack = SampleJobs.DemoBook.Packs.Single(one => one.Id.Text == UnitedStates);
        Assert.Contains(Layout.Printable.Of($"Cited: {pack.Title}."), printed, StringComparison.Ordinal);
        Assert.Contains(Layout.Printable.Of(pack.Precedence!), printed, StringComparison.Ordinal);
        // tech-05 worked beside tech-01 without a lock of their own: 29 CFR 1910.147(f)(3)(ii)(D).
        Assert.Contains("(f)(3)(ii)(D)", printed, StringComparison.Ordinal);
    }

    [Fact]
    public void LayOut_SiteThatNamesNone_CitesNoneAndSaysThatLocalCodesComeFirst()
    {
        var printed = Words(Judge());

        Assert.Contains(
            Layout.Printable.Of("no text is cited: local codes come first"),
            printed,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("(f)(3)", printed, StringComparison.Ordinal);
        Assert.DoesNotContain("1910.147", printed, StringComparison.Ordinal);
    }

    /// <summary>Each row cites one text; with a second one named, it is told which.</summary>
    [Fact]
    public void LayOut_SiteThatNamesATextNobodyWrote_CitesTheOtherAlone()
    {
        var printed = Words(Judge("nowhere-1", UnitedStates));

        Assert.Contains("(f)(3)(ii)(D)", printed, StringComparison.Ordinal);
        Assert.DoesNotContain("nowhere-1", printed, StringComparison.Ordinal);
    }
}
