using System.Globalization;
using System.Text;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>A timeline as a person reads it: one line each event, in UTC, as entered.</summary>
internal static class Told
{
    public static string Of(ServiceRecord record, AssessmentContext context)
    {
        var text = new StringBuilder();
        var sources = context.Machines.IsEmpty
            ? context.Procedures.SelectMany(p => p.Sources)
            : context.Machines[0].Sources;
        text.AppendLine(
            CultureInfo.InvariantCulture,
            $"  {(record.SignOff is null ? "open" : "closed")}; machine{(context.Machines.IsEmpty ? " (by procedure)" : "")}: {string.Join(", ", sources.Select(Source))}"
        );
        foreach (var e in record.Timeline)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"  {Line(e)}{Held(e, context)}");
        }

        foreach (var line in record.Units.SelectMany(unit => unit.Entries))
        {
            text.AppendLine(
                CultureInfo.InvariantCulture,
                $"  bench: {(line.At is { } at ? At(at) : "no time")} {line.By} {Done(line)}"
            );
        }

        return text.ToString();
    }

    private static string Done(BenchEntry line) =>
        line switch
        {
            Reading reading => $"{reading.Quantity} by {reading.Observed.GetType().Name}",
            Adjustment turn => $"turned {turn.Adjuster}",
            _ => line.GetType().Name,
        };

    private static string At(RecordedTime at) =>
        at is RecordedTime.Instant instant
            ? instant.Moment.Utc.ToString("dd HH:mm:ss.ff", CultureInfo.InvariantCulture)
            : at.Text;

    private static string Source(EnergySource s) =>
        s.Id.Text
        + (
            s.Isolator is null ? ""
            : s.Lockable ? " (lock)"
            : " (tag)"
        )
        + (s.Stored ? " stored" : "")
        + (
            s.RecheckMinutes is { } minutes
                ? string.Create(CultureInfo.InvariantCulture, $" {minutes} min")
                : ""
        );

    /// <summary>What the register says of a device where it is not simply of whoever put it on.</summary>
    private static string Held(TimelineEvent e, AssessmentContext context)
    {
        if (e.Kind is not (TimelineEventKind.LockApplied or TimelineEventKind.TagApplied))
        {
            return "";
        }

        var known = context.Locks.FirstOrDefault(held => held.Id == e.Lock);
        return known is null ? " (not in the register)"
            : known.IsTag ? ""
            : known.Owner is not { } owner ? " (job lock)"
            : owner == e.Actor ? ""
            : $" (of {owner})";
    }

    private static string Line(TimelineEvent e)
    {
        List<string> words = [At(e.At), e.Kind.ToString(), e.Actor.Text];
        words.AddRange(
            e.Source switch
            {
                SourceReference.One one => [one.Source.Text],
                SourceReference.GroupBox => ["group box"],
                SourceReference.All => ["all"],
                _ => [],
            }
        );
        words.AddRange(e.Lock is { } held ? [held.Text] : []);
        words.AddRange(e.Position is { } position ? [position.ToString()] : []);
        words.AddRange(e.Isolator is { } isolator ? [isolator] : []);
        words.AddRange(e.Reason is { } reason ? [$"for {reason}"] : []);
        words.AddRange(e.Exception is { } exception ? [$"under {exception}"] : []);
        words.AddRange(e.Others.IsEmpty ? [] : ["with", string.Join(",", e.Others.Select(o => o.Text))]);
        words.AddRange(e.Mark == EntryMark.AtTheTime ? [] : [e.Mark.ToString()]);
        words.AddRange(e.ReceivedAt is { } received ? [$"received {received.Text}"] : []);
        words.AddRange(
            e.Sequence is { } number
                ? [string.Create(CultureInfo.InvariantCulture, $"{e.Device}#{number}")]
                : []
        );
        words.AddRange(e.Claim is { } claim ? [claim.Kind.ToString()] : []);
        return string.Join(' ', words);
    }
}
