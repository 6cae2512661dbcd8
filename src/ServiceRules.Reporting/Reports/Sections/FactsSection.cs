using System.Globalization;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Reporting.Signing;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>What the job was, and what identity and time in this report rest on.</summary>
internal static class FactsSection
{
    public static Block Of(JobView job, SignatureStatement signature)
    {
        return new Row(
            [
                new Column(ColumnWidth.Share(1), Facts(job)),
                new Column(ColumnWidth.Share(1.35), GroundsSection.Of(job, signature)),
            ],
            12
        );
    }

    private static Stack Facts(JobView job)
    {
        var record = job.Record;
        var lines = new List<(string Name, string Told)>
        {
            ("job", $"{record.Id.Text}, {record.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}"),
            ("machine", Machine(job)),
            ("tasks", ReportWords.Listed([.. record.Tasks.Select(ReportWords.Of)])),
            (
                "people",
                string.Join(", ", record.People.Select(one => $"{one.Id.Text} ({ReportWords.Of(one.Role)})"))
            ),
            ("state", ReportWords.Of(job.Assessment.State)),
        };
        if (job.Log?.Amends is { } amends)
        {
            lines.Add(
                (
                    "amends",
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"entry {amends.Corrects} of the log ({amends.Reason})"
                    )
                )
            );
        }
        if (job.Log?.NewerIndex is { } newer)
        {
            lines.Add(
                (
                    "superseded",
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"entry {newer} of the log is a newer version of this record"
                    )
                )
            );
        }
        if (record.SignOff is { } signOff)
        {
            lines.Add(("signed off", $"{signOff.By.Text}, {TimePrint.Full(signOff.At)}"));
        }
        if (record.FollowUp is { } after)
        {
            var note = after.Note is null ? "" : $": {after.Note}";
            lines.Add(
                (
                    "re-checked",
                    $"{after.By.Text}, {ReportWords.Of(after.Result)}, {TimePrint.Full(after.At)}{note}"
                )
            );
        }
        if (record.Temperature is { } temperature)
        {
            lines.Add(("workshop", temperature.ToString()));
        }
        if (record.Complaint is { } complaint)
        {
            lines.Add(("complaint", complaint));
        }
        lines.AddRange(
            record.Requested.Select(asked =>
                ("asked for", $"{job.Say(ReportWords.Of(asked.Quantity))} {asked.Value}")
            )
        );
        lines.AddRange(
            job.Assessment.Findings.SelectMany(finding => finding.Notices)
                .Where(ToldThoughMet.IsOfJobCard)
                .Distinct(StringComparer.Ordinal)
                .Select(notice => ("job card", job.Say(notice)))
        );
        return new Stack([
            Paragraph.Heading(2, "The job", Palette.SubHeading),
            .. lines.Select(line => Line(line.Name, line.Told)),
        ]);
    }

    private static string Machine(JobView job)
    {
        var machine = job.Record.Machine;
        string?[] parts =
        [
            machine.Id.Text,
            machine.Area,
            machine.Hours?.ToString(),
            ReportWords.Of(job.Record.Place),
        ];
        return string.Join(", ", parts.OfType<string>());
    }

    private static Row Line(string name, string told) =>
        new(
            [
                new Column(ColumnWidth.Fixed(44), new Paragraph(name, Palette.SmallQuiet)),
                new Column(ColumnWidth.Share(), new Paragraph(told, Palette.Small)),
            ],
            4
        );
}
