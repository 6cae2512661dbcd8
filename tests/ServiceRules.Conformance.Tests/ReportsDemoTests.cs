using System.Security.Cryptography.X509Certificates;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Application.SafeWork;
using ServiceRules.Evidence;
using ServiceRules.Reporting.Verifying;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests;

/// <summary>
/// The reports that are committed as examples were signed once, by a key that no longer exists. They must stay genuine
/// whatever becomes of the rules, and their verdicts must follow again from what they carry.
/// </summary>
public class ReportsDemoTests
{
    private static readonly string Folder = ReferenceFiles.InRepository("reports-demo");

    public static TheoryData<string> Reports => [.. Named("reports", "")];

    /// <summary>Those of a service, then those of safe work: one record, and one month.</summary>
    public static TheoryData<string> AllReports =>
        [.. Named("reports", ""), .. Named("safe-work", Path.Combine("..", "safe-work"))];

    [Theory]
    [MemberData(nameof(AllReports))]
    public void CommittedReport_WithItsCertificate_IsGenuine(string name)
    {
        using var certificate = X509Certificate2.CreateFromPem(
            File.ReadAllText(Path.Combine(Folder, "certificate.pem"))
        );
        var report = Verify(name, [certificate]);

        // Only what a report looks like may be beyond this program: it was drawn by an earlier version of it.
        Assert.All(
            report.Points.Where(point => point.Name != VerifyReport.Drawn),
            point =>
                Assert.True(
                    point.Result is PointResult.Passed or PointResult.NotClaimed,
                    $"{point.Name}: {point.Told}"
                )
        );
        var drawn = report.Points.Single(point => point.Name == VerifyReport.Drawn);
        Assert.True(
            drawn.Result is PointResult.Passed or PointResult.NotEstablished,
            $"{drawn.Told}\nThe drawing changed: raise DrawingVersion.Current, then issue the demo anew"
        );
        Assert.True(report.Standing is ReportStanding.Genuine or ReportStanding.NotEstablished);
    }

    [Theory]
    [MemberData(nameof(Reports))]
    public void CommittedReport_WithoutItsCertificate_IsNotSuccess(string name)
    {
        var report = Verify(name, []);

        Assert.Equal(ReportStanding.SignerNotTrusted, report.Standing);
        Assert.Equal(
            ["trust"],
            report.Points.Where(point => point.Result == PointResult.Failed).Select(point => point.Name)
        );
    }

    [Theory]
    [MemberData(nameof(Reports))]
    public void CommittedReport_Carries_TheRecordBesideIt(string name)
    {
        var bytes = File.ReadAllBytes(Path.Combine(Folder, "reports", name));
        var record = File.ReadAllBytes(Path.Combine(Folder, "records", Path.ChangeExtension(name, ".json")));
        var attached = new PdfReportReader([]).Read(bytes).Attachments[EvidenceFiles.RecordName];

        Assert.True(CanonicalJson.Canonicalise(record).TryGet(out var canonical, out _));
        Assert.Equal(canonical.Bytes.ToArray(), attached);
    }

    /// <summary>A month on which all is well shows nobody what the report is for.</summary>
    [Fact]
    public void CommittedMonth_ShowsAJobThatNeedsAction()
    {
        var summaries = Directory
            .EnumerateFiles(Path.Combine(Folder, "safe-work"), "*.pdf")
            .Select(path => new PdfReportReader([]).Read(File.ReadAllBytes(path)).Attachments)
            .Where(attached => attached.ContainsKey(PeriodFiles.SummaryName))
            .Select(attached => JsonNode.Parse(attached[PeriodFiles.SummaryName])!)
            .ToList();

        Assert.NotEmpty(summaries);
        Assert.All(summaries, summary => Assert.True((int)summary["totals"]!["notShown"]! > 0));
    }

    private static IEnumerable<string> Named(string folder, string before) =>
        Directory
            .EnumerateFiles(Path.Combine(Folder, folder), "*.pdf")
            .Select(path => Path.Combine(before, Path.GetFileName(path)))
            .Order(StringComparer.Ordinal);

    private static VerifiedReport Verify(string name, IReadOnlyList<X509Certificate2> trusted) =>
        new VerifyReport(new PdfReportReader(trusted), new Judge(), new ReportRedrawing()).Verify(
            File.ReadAllBytes(Path.Combine(Folder, "reports", name))
        );
}
