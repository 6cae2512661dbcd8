using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>What the site's registers say that bears on the job, and what of it is out of date or missing.</summary>
internal static class RegistersSection
{
    public static IEnumerable<Block> Of(SafeWorkView view)
    {
        yield return Paragraph.Heading(2, "Registers that bear on this job", Palette.Heading);
        var programme = view.Found.All.Where(one => one.Kind == SafeWorkKind.Programme).ToList();
        foreach (
            var same in programme
                .Where(one => one.IsOpen)
                .GroupBy(one => (one.Finding.Verdict, one.Finding.Statement))
        )
        {
            yield return Said(view, [.. same]);
        }
        var met = programme.Where(one => one.Finding.Verdict == Verdict.Met).ToList();
        if (met.Count > 0)
        {
            yield return view.Job.MarkedLine(
                VerdictPrint.OfSafeWork(Verdict.Met),
                new Span("The registers show: ", Palette.SmallBold),
                new Span(
                    string.Join("; ", met.Select(one => view.Job.TitleOf(one.Finding).ToLowerInvariant()))
                        + ".",
                    Palette.Small
                )
            );
        }
        var lines = Lines(view.Job.Record, view.Job.Assessed.Context, view.Frame.Days.Latest);
        if (!lines.IsEmpty)
        {
            yield return new Table(
                [ColumnWidth.Share(1), ColumnWidth.Share(1.6), ColumnWidth.Share(1), ColumnWidth.Share(1)],
                new TableRow([Head("register"), Head("entry"), Head("last"), Head("holds until")]),
                lines,
                new TableStyle(3, 1, Palette.HairLine) { HeaderLine = Palette.Outline }
            );
        }
    }

    /// <summary>One entry that is wrong or lacking, and every duty that misses it.</summary>
    private static Row Said(SafeWorkView view, ImmutableArray<SafeWorkFinding> same)
    {
        var finding = same[0].Finding;
        var print =
            finding.Verdict == Verdict.NotMet
                ? VerdictPrint.OfSafeWork(finding.Verdict) with
                {
                    Word = "out of date, wrong or missing",
                }
                : VerdictPrint.OfSafeWork(finding.Verdict);
        var titles = same.Select(one => view.Job.TitleOf(one.Finding)).Distinct(StringComparer.Ordinal);
        var clauses = same.Select(one => view.Clauses.For(one.Rule))
            .Where(clause => clause.Length > 0)
            .Distinct(StringComparer.Ordinal);
        var notices = same.SelectMany(one => one.Finding.Notices).Distinct(StringComparer.Ordinal);
        return view.Job.MarkedLine(
            print,
            new Span($"{ReportWords.Sentence(print.Word)} · ", Palette.SmallBold with { Ink = print.Ink }),
            new Span(view.Job.Say(string.Join(" ", notices.Prepend(finding.Statement))), Palette.Small),
            new Span($"  {string.Join("; ", titles)}", Palette.SmallQuiet),
            new Span($"  {string.Join(", ", clauses)}", Palette.SmallBold)
        );
    }

    private static ImmutableArray<TableRow> Lines(
        ServiceRecord record,
        AssessmentContext context,
        DateOnly day
    ) =>
        [
            .. context.Procedures.Select(procedure =>
                RowOf(
                    "procedures",
                    $"{procedure.Id.Text}, {procedure.Title}",
                    Day("inspected", procedure.LastInspected),
                    Until(procedure.InspectionDue, day)
                )
            ),
            .. context
                .People.Where(person => NamedInRecord.Has(record, person.Id))
                .Select(person =>
                    RowOf(
                        "people",
                        $"{person.Id.Text}, {(person.On(day).Authorised ? "authorised" : "not authorised")} to lock out{(person.Left is { } left ? $", left on {Text(left)}" : "")}",
                        Day("trained", person.TrainedOn),
                        Until(person.On(day).TrainedUntil, day)
                    )
                ),
            .. context.Locks.Select(device => RowOf("locks", Device(device), "", "")),
        ];

    private static string Device(RegisteredLock device)
    {
        string?[] parts =
        [
            $"{(device.IsTag ? "tag " : "")}{device.Id.Text}",
            device.Owner is { } owner ? $"issued to {owner.Text}" : "job lock",
            device.Use == RegisteredLock.Lockout ? null : $"registered for {device.Use}",
        ];
        return string.Join(", ", parts.OfType<string>());
    }

    private static TableRow RowOf(params string[] cells) =>
        new([.. cells.Select(cell => new Paragraph(cell, Palette.Tiny))]);

    private static Paragraph Head(string text) => new(text, Palette.TinyQuiet);

    private static string Day(string what, DateOnly? day) =>
        day is { } one ? $"{what} {Text(one)}" : "not stated";

    private static string Until(DateOnly? until, DateOnly day) =>
        until is not { } one ? "not stated"
        : one < day ? $"{Text(one)}, out of date on the day of the job"
        : Text(one);

    private static string Text(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
