using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Tests.Reports.SafeWork;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Reports;

/// <summary>Reports as they reach those who hear them: what is said, in which order, and what each part is.</summary>
public sealed partial class HeardReportTests : IDisposable
{
    private readonly Scratch _scratch = new();
    private readonly Scratch _records = new();

    public void Dispose()
    {
        _scratch.Dispose();
        _records.Dispose();
    }

    public static TheoryData<string> Reports => ["full", "brief", "safe-work", "period"];

    private byte[] Write(string name) =>
        name switch
        {
            "full" => Write(SampleJobs.FullService),
            "brief" => Write(SampleJobs.HeightCheckOfTwelve),
            "safe-work" => SafeWorkReport.Write(
                Bare,
                ReportTerms.Default,
                SampleReport.Key,
                SampleReport.IssuedAt
            ),
            _ => SafeWorkPeriodReport.Write(
                Period(),
                ReportTerms.Default,
                SampleReport.Key,
                SampleReport.IssuedAt
            ),
        };

    private PlacedDocument LayOut(string name) =>
        name switch
        {
            "full" => LayOut(SampleJobs.FullService),
            "brief" => LayOut(SampleJobs.HeightCheckOfTwelve),
            "safe-work" => SafeWorkReport.LayOut(
                Bare,
                ReportTerms.Default,
                SampleReport.Statement,
                FontMeasure.Shipped
            ),
            _ => SafeWorkPeriodReport.LayOut(
                Period(),
                ReportTerms.Default,
                SampleReport.Statement,
                FontMeasure.Shipped
            ),
        };

    private static Assessed Bare => SampleJobs.Judge(SafeWorkSamples.SecondWithoutLock);

    private SafeWorkPeriod Period() =>
        SafeWorkSamples.Period(
            _records,
            [SafeWorkSamples.ByTwo, SafeWorkSamples.SecondWithoutLock with { Id = new("F-bare") }]
        );

    private static byte[] Write(Assessed job) =>
        JobReport.Write(job, ReportTerms.Default, SampleReport.Key, SampleReport.IssuedAt);

    private static PlacedDocument LayOut(Assessed job) =>
        JobReport.LayOut(job, ReportTerms.Default, SampleReport.Statement, FontMeasure.Shipped);

    private string Raw(string name) => Encoding.Latin1.GetString(Write(name));

    [SkippableTheory]
    [MemberData(nameof(Reports))]
    public void Pdfinfo_StructureText_IsWhatIsDrawnInTheOrderOfTheDrawing(string name)
    {
        var path = _scratch.Write("report.pdf", Write(name));

        var told = Tool.Require("pdfinfo").Run("-struct-text", path).StandardOutput;

        var heard = string.Concat(Quoted().Matches(told).Select(match => match.Groups[1].Value));
        var drawn = string.Concat(
            LayOut(name)
                .Pages.SelectMany(page => Groups(page.Items))
                .SelectMany(TextsOf)
                .Select(text => text.Content)
        );
        Assert.Equal(Layout.Printable.Of(drawn), Layout.Printable.Of(heard));
    }

    /// <summary>Words that a line break parts are two words to whoever hears or copies them.</summary>
    [SkippableTheory]
    [InlineData("full")]
    [InlineData("brief")]
    public void Pdfinfo_StructureText_KeepsWordsApartWhereLinesBreak(string name)
    {
        var path = _scratch.Write("report.pdf", Write(name));

        var told = Tool.Require("pdfinfo").Run("-struct-text", path).StandardOutput;

        Assert.Contains(
            "A sharp reel cuts at rest: wear cut-resistant gloves, turn it with a tool",
            told,
            StringComparison.Ordinal
        );
        Assert.Contains("no sign-in was checked. Times: ", told, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Reports))]
    public void Write_Headings_LeaveOutNoLevel(string name)
    {
        var levels = LayOut(name)
            .Pages.SelectMany(page => Groups(page.Items))
            .Select(group => group.Role)
            .Where(role => role is StructureRole.Heading1 or StructureRole.Heading2 or StructureRole.Heading3)
            .Select(role => 1 + (int)role - (int)StructureRole.Heading1)
            .ToList();

        Assert.Equal(1, levels[0]);
        Assert.Single(levels, level => level == 1);
        Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.True(pair.Second <= pair.First + 1));
    }

    [Theory]
    [InlineData("full")]
    [InlineData("brief")]
    [InlineData("safe-work")]
    public void Write_EveryFigure_IsToldWithTheNumbersThatItShows(string name)
    {
        var figures = LayOut(name)
            .Pages.SelectMany(page => Groups(page.Items))
            .Where(group => group.Role == StructureRole.Figure)
            .ToList();

        Assert.NotEmpty(figures);
        Assert.All(
            figures,
            figure =>
            {
                Assert.False(string.IsNullOrWhiteSpace(figure.Alternative));
                // The lanes say of themselves that the list below them tells every event.
                var isTold = figure.Alternative!.Contains("the list that follows", StringComparison.Ordinal);
                var shown = TextsOf(figure)
                    .SelectMany(text => Number().Matches(text.Content))
                    .Select(one => one.Value);
                Assert.All(
                    isTold ? [] : shown,
                    number => Assert.Contains(number, figure.Alternative, StringComparison.Ordinal)
                );
            }
        );
    }

    [Theory]
    [MemberData(nameof(Reports))]
    public void Write_Elements_CarryWhatTheirKindNeeds(string name)
    {
        var file = Raw(name);

        var elements = Element().Matches(file).Select(match => match.Value).ToLookup(Kind);
        Assert.All(elements["Figure"], figure => Assert.Matches(@"/Alt\(.+?\).*/BBox\[", figure));
        Assert.All(elements["TH"], head => Assert.Contains("/Scope/Column", head, StringComparison.Ordinal));
        Assert.NotEmpty(elements["TH"]);
        var field = Assert.Single(elements["Form"]);
        Assert.Contains("/Type/OBJR", field, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Reports))]
    public void Write_EveryTable_HasItsHeadOnEveryPage(string name)
    {
        var tables = LayOut(name)
            .Pages.SelectMany(page => Groups(page.Items))
            .Where(group => group.Role == StructureRole.Table)
            .ToList();

        Assert.NotEmpty(tables);
        Assert.All(
            tables,
            table =>
            {
                var first = Groups(table.Children).First(group => group.Role != StructureRole.Artifact);
                Assert.Equal(StructureRole.TableRow, first.Role);
                Assert.All(
                    first.Children.OfType<Placed.Group>().Where(cell => cell.Role != StructureRole.Artifact),
                    cell => Assert.Equal(StructureRole.TableHeader, cell.Role)
                );
            }
        );
    }

    [Theory]
    [MemberData(nameof(Reports))]
    public void Write_File_SaysThatItIsTaggedAndHowItIsComeThrough(string name)
    {
        var file = Raw(name);

        Assert.Contains("/Lang(en-GB)", file, StringComparison.Ordinal);
        Assert.Contains("<</Marked true>>", file, StringComparison.Ordinal);
        Assert.Contains("<</DisplayDocTitle true>>", file, StringComparison.Ordinal);
        Assert.All(
            Page().Matches(file),
            page => Assert.Contains("/Tabs/S", page.Value, StringComparison.Ordinal)
        );
        var field = Assert.Single(Field().Matches(file)).Value;
        Assert.Matches(@"/TU\(.+\).*/StructParent \d+|/StructParent \d+.*/TU\(.+\)", field);
    }

    private static string Kind(string element) =>
        Regex.Match(element, "/S/([A-Za-z0-9]+)", RegexOptions.CultureInvariant).Groups[1].Value;

    /// <summary>Every group that is heard, outer before inner.</summary>
    private static IEnumerable<Placed.Group> Groups(ImmutableArray<Placed> items) =>
        items
            .OfType<Placed.Group>()
            .Where(group => group.Role != StructureRole.Artifact)
            .SelectMany(group => Groups(group.Children).Prepend(group));

    /// <summary>The texts of a group itself; those of inner groups are theirs.</summary>
    private static IEnumerable<Placed.Text> TextsOf(Placed.Group group) =>
        group.Children.OfType<Placed.Text>();

    [GeneratedRegex("^ *\"(.*)\"$", RegexOptions.Multiline)]
    private static partial Regex Quoted();

    [GeneratedRegex(@"\d+(\.\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex("<</Type/StructElem/[^\n]*>>\nendobj")]
    private static partial Regex Element();

    [GeneratedRegex("<</Type/Page/[^\n]*>>\nendobj")]
    private static partial Regex Page();

    [GeneratedRegex("\n[^\n]*/FT/Sig[^\n]*\nendobj")]
    private static partial Regex Field();
}
