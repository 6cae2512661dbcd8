using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Assessing;

/// <summary>
/// Locks that a record leaves hanging because nobody entered that they came off. That the same hand hangs the same lock on another
/// machine after the last entry of that record shows that it had come off, as does another record of the machine that takes
/// it off: no later job is doubted because of it.
/// </summary>
internal static class LocksLeft
{
    /// <summary>The stays, those that were left open ended where another record shows that they had.</summary>
    public static IEnumerable<WorkElsewhere.Stay> Ended(
        IReadOnlyCollection<WorkElsewhere.Stay> stays,
        IEnumerable<RecordShown> shown
    )
    {
        var ofLock = stays.ToLookup(stay => stay.Who, StringComparer.Ordinal);
        var taken = shown
            .SelectMany(one =>
                one.TakenFromOthers().Select(entry => (one.Machine, one.Id, Entry: entry.Event, entry.Moment))
            )
            .ToLookup(one => (one.Machine, one.Entry.Lock));
        foreach (var stay in stays)
        {
            if (stay is not { Until: null, Place: LockElsewhere hung })
            {
                yield return stay;
                continue;
            }

            var off = taken[(hung.Machine, hung.Lock)]
                .Where(one => one.Moment >= stay.From)
                .Select(one => (one.Moment, one.Entry.At, one.Id))
                .Concat(
                    HungAgain(stay, ofLock[stay.Who]) is { } again
                        ? [(again.From, again.Place.From, again.Record)]
                        : []
                )
                .OrderBy(one => one.Moment)
                .Cast<(Moment Moment, RecordedTime At, Id<ServiceRecord> By)?>()
                .FirstOrDefault();
            yield return off is { } end
                ? stay with
                {
                    Until = end.Moment,
                    EndedBy = end.By,
                    Place = hung with { Until = end.At },
                }
                : stay;
        }
    }

    /// <summary>The first stay that shows a lock left hanging hung by the same hand at another machine, or null.</summary>
    public static WorkElsewhere.Stay? HungAgain(
        WorkElsewhere.Stay left,
        IEnumerable<WorkElsewhere.Stay> ofLock
    ) =>
        left is { Until: null, Place: LockElsewhere }
        && ofLock
            .Where(other =>
                other.Record != left.Record
                && other.By == left.By
                && other.Place.Machine != left.Place.Machine
                && other.From > left.Last
            )
            .MinBy(other => other.From)
            is { } again
            ? again with
            {
                Place = again.Place with { Record = again.Record },
            }
            : null;
}
