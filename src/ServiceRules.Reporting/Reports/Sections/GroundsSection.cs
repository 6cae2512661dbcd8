using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>What identity and time in a report rest on, and its signature.</summary>
internal static class GroundsSection
{
    public static Stack Of(JobView job, SignatureStatement signature) =>
        Of(
            SignInWords.Of(job.Log?.Sender, job.Record),
            Times([(job.Record, job.Assessed.Context.Zone)]),
            BroughtRegisters.Told(job.Assessed.Context),
            Log(job),
            signature,
            job.ToldBold,
            job.Told
        );

    public static Stack Of(
        string identity,
        string times,
        string? registers,
        string log,
        SignatureStatement signature,
        TextStyle bold,
        TextStyle plain
    ) =>
        new([
            Paragraph.Heading(2, "What identity and time rest on", Palette.SubHeading),
            new Paragraph([
                new Span("Identity: ", bold),
                new Span($"{identity} ", plain),
                new Span("Times: ", bold),
                new Span(times, plain),
                .. Registers(registers, bold, plain),
                new Span(" Issue: ", bold),
                new Span(signature.Ground, plain),
                new Span(" Log: ", bold),
                new Span(log, plain),
            ]),
            new Gap(2),
            new SignaturePlace(VisibleSignature.Of(signature)),
        ]);

    private static IEnumerable<Span> Registers(string? told, TextStyle bold, TextStyle plain) =>
        told is null ? [] : [new Span(" Registers: ", bold), new Span(told, plain)];

    /// <summary>What the times of some records rest on.</summary>
    public static string Times(IReadOnlyCollection<(ServiceRecord Record, SiteZone Zone)> records)
    {
        var events = records.SelectMany(one => one.Record.Timeline).ToList();
        if (events.Count == 0)
        {
            return records.Count == 1 ? "the record has no timeline." : "no record has a timeline.";
        }
        var zones = records
            .Where(one => one.Record.Timeline.Any(entry => entry.At is RecordedTime.LocalTime))
            .Select(one => $"{one.Zone.Name} (zone data {one.Zone.DataVersion})")
            .Distinct(StringComparer.Ordinal);
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
                $"without offset, read in {string.Join(", ", zones)}"
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

    private static string Log(JobView job) =>
        job.Log is { } log
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"{log.Head.Origin}, {log.Head.Size} entries, root {log.Head.Root}, key {log.Key.IdText}; proofs attached."
            )
            : "not filed in a log.";

    private static string Counted(int count, string one, string many, string how) =>
        count == 0 ? "" : $"{ReportWords.Counted(count, one, many)} {how}";
}
