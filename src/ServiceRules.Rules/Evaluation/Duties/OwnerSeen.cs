using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What shows the owner of a lock there, who was certified absent.</summary>
/// <param name="What">What they did and when, after <c>shows</c>; names the other record where it stands in one.</param>
/// <param name="Moment">When.</param>
/// <param name="Entries">The entries of this record that show it.</param>
/// <param name="Beside">What shows it beside the timeline.</param>
internal sealed record OwnerSeen(
    string What,
    Moment Moment,
    ImmutableArray<OrderedEvent> Entries,
    ImmutableArray<string> Beside
)
{
    /// <summary>How soon after their lock came off somebody who acts was not far. Judgement, no source.</summary>
    private static readonly TimeSpan Soon = TimeSpan.FromMinutes(30);

    /// <summary>The first that shows them there, or null.</summary>
    public static OwnerSeen? Around(Removal removal, OrderedEvent confirmed)
    {
        var until = removal.Entry.Moment + Soon;
        return After(removal)
            .Concat(ByTheLog(removal))
            .Concat(Signed(removal))
            .Concat(InOthers(removal))
            .Where(seen => confirmed.Moment < seen.Moment && seen.Moment <= until)
            .OrderBy(seen => seen.Moment)
            .FirstOrDefault();
    }

    private static IEnumerable<OwnerSeen> After(Removal removal) =>
        removal.OwnerBack is { } back
            ? [new($"{EventWords.Done(back.Event)} {removal.Duty.Words.AtBy(back)}", back.Moment, [back], [])]
            : [];

    private static IEnumerable<OwnerSeen> ByTheLog(Removal removal) =>
        removal
            .Duty.Reading.HandsByTheLog.Where(hands => hands.Entry.By == removal.Owner)
            .Select(hands => new OwnerSeen(
                $"{hands.What} by {removal.Owner} at {removal.Duty.Words.Time(hands.At)}",
                hands.Moment,
                [],
                [hands.Pointer]
            ));

    private static IEnumerable<OwnerSeen> Signed(Removal removal) =>
        removal.Duty.Record.SignOff is { } signed && signed.By == removal.Owner
            ?
            [
                new(
                    $"the job signed off by {signed.By} at {removal.Duty.Words.Time(signed.At)}",
                    JudgedOrder.MomentOf(signed.At, removal.Duty.Context.Zone),
                    [],
                    ["/signOff"]
                ),
            ]
            : [];

    private static IEnumerable<OwnerSeen> InOthers(Removal removal)
    {
        var zone = removal.Duty.Context.Zone;
        foreach (var other in removal.Duty.Context.OtherRecords)
        {
            foreach (var entry in other.Timeline.Where(entry => entry.Actor == removal.Owner))
            {
                yield return new(
                    $"in record {other.Record}, of {other.Machine}, {EventWords.Done(entry)} by {entry.Actor} at {removal.Duty.Words.Time(entry.At)}",
                    JudgedOrder.MomentOf(entry.At, zone),
                    [],
                    []
                );
            }

            if (other.SignOff is { } signed && signed.By == removal.Owner)
            {
                yield return new(
                    $"record {other.Record}, of {other.Machine}, signed off by {signed.By} at {removal.Duty.Words.Time(signed.At)}",
                    JudgedOrder.MomentOf(signed.At, zone),
                    [],
                    []
                );
            }
        }
    }
}
