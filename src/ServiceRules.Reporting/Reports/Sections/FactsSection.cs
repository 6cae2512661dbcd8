using System.Globalization;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>What the job was, and what identity and time in this report rest on.</summary>
internal static class FactsSection
{
    public static Block Of(JobView job, SignatureStatement signature)
    {
        return new Row(
            [
                new Column(ColumnWidth.Share(1), Facts(job)),
                new Column(ColumnWidth.Share(1.35), Grounds(job, signature)),
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

    private static Stack Grounds(JobView job, SignatureStatement signature)
    {
        return new Stack([
            Paragraph.Heading(2, "What identity and time rest on", Palette.SubHeading),
            new Paragraph([
                new Span("Identity: ", job.ToldBold),
                new Span(
                    "people stand here by the pseudonyms of the record, as entered; no sign-in was checked. ",
                    job.Told
                ),
                new Span("Times: ", job.ToldBold),
                new Span(Times(job), job.Told),
                new Span(" Issue: ", job.ToldBold),
                new Span(signature.Ground, job.Told),
                new Span(" Log: ", job.ToldBold),
                new Span(Log(job), job.Told),
            ]),
            new Gap(2),
            new SignaturePlace(VisibleSignature.Of(signature)),
        ]);
    }

    private static string Log(JobView job) =>
        job.Log is { } log
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"{log.Head.Origin}, {log.Head.Size} entries, root {log.Head.Root}, key {log.Key.IdText}; proofs attached."
            )
            : "not filed in a log.";

    private static string Times(JobView job)
    {
        var events = job.Record.Timeline;
        if (events.IsEmpty)
        {
            return "the record has no timeline.";
        }
        var zone = job.Assessed.Context.Zone;
        var parts = new List<string>
        {
            Counted(
                events.Count(one => one.At is RecordedTime.Instant),
                "entry",
                "entries",
                "with its offset from UTC"
            ),
            Counted(
                events.Count(one => one.At is RecordedTime.LocalTime),
                "entry",
                "entries",
                $"without offset, read in {zone.Name} (zone data {zone.DataVersion})"
            ),
            Counted(
                events.Count(one => one.Mark == EntryMark.LateEntry),
                "late entry",
                "late entries",
                "so marked"
            ),
            Counted(
                events.Count(one => one.Mark == EntryMark.Transcription),
                "entry",
                "entries",
                "copied from paper"
            ),
            Counted(
                events.Count(one => one.ReceivedAt is not null),
                "entry",
                "entries",
                "with the time of receipt"
            ),
        };
        return $"as entered, {ReportWords.Listed([.. parts.Where(part => part.Length > 0)])}.";
    }

    private static string Counted(int count, string one, string many, string how) =>
        count == 0 ? "" : $"{ReportWords.Counted(count, one, many)} {how}";
}
