using System.Collections.Frozen;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Which entries of a timeline are doubtful, and why. A labelled late entry or transcription is honest: it is told, and
/// weakens nothing. A doubt can turn a met requirement into an unproven one; it never excuses a breach.
/// </summary>
internal static class CredibilityReading
{
    /// <summary>An entry received later than this is not one made at the time. Judgement, no source.</summary>
    private static readonly TimeSpan LongestDelay = TimeSpan.FromMinutes(30);

    /// <summary>How far a device's clock may be ahead of the receiver's. Judgement, no source.</summary>
    private static readonly TimeSpan AheadTolerance = TimeSpan.FromMinutes(5);

    /// <summary>How far back a device's clock may step when it is set by the network. Judgement, no source.</summary>
    private static readonly TimeSpan ClockTolerance = TimeSpan.FromSeconds(2);

    /// <summary>Doubts of one kind; those of bench entries are told by <see cref="BenchTimes"/>.</summary>
    public static IEnumerable<EntryDoubt> Of(TimelineReading reading, CredibilityOf kind) =>
        kind switch
        {
            CredibilityOf.NoOffset => WithoutOffset(reading),
            CredibilityOf.LateEntries => Labelled(reading),
            CredibilityOf.Bursts => StepBursts.In(reading),
            CredibilityOf.BackFilled => BackFilled(reading),
            CredibilityOf.ClockBackward => ClockBackward(reading),
            CredibilityOf.EntryTimes => BenchTimes.Contradicted(reading),
            CredibilityOf.RecordDate => RecordDay.Contradicted(reading.Frame.Days),
            CredibilityOf.FutureStamps => FutureStamps(reading),
            CredibilityOf.ConflictingDuplicates => StepsClaimedTwice
                .In(reading)
                .Concat(SharedIdentity.In(reading)),
            CredibilityOf.LockInTwoPlaces => ElsewhereDoubts
                .OfDevices(reading)
                .Concat(LocksOnTwoIsolators.In(reading)),
            CredibilityOf.PersonElsewhere => ElsewhereDoubts.OfPeople(reading),
            CredibilityOf.DeviceHistory => DeviceHistory.In(reading),
            CredibilityOf.StartedHeldOff => StartsHeldOff.In(reading),
            CredibilityOf.OffsetChanges => OffsetChanges.In(reading),
            CredibilityOf.UnknownSources => UnknownSources.In(reading),
            CredibilityOf.RestTooSoon => RestTooSoon.In(reading),
            _ => throw new ArgumentOutOfRangeException(
                nameof(kind),
                kind,
                "kinds of doubt are a closed family"
            ),
        };

    /// <summary>Pointers of the timeline entries that prove nothing by themselves.</summary>
    public static FrozenSet<string> Weakened(TimelineReading reading) =>
        WithoutOffset(reading)
            .Concat(StepBursts.In(reading))
            .Concat(BackFilled(reading))
            .Concat(ClockBackward(reading))
            .Concat(FutureStamps(reading))
            .Concat(StepsClaimedTwice.In(reading))
            .Concat(SharedIdentity.In(reading))
            .Concat(ElsewhereDoubts.OfDevices(reading))
            .Concat(LocksOnTwoIsolators.In(reading))
            .Concat(ElsewhereDoubts.OfPeople(reading))
            .Concat(DeviceHistory.In(reading))
            .Concat(StartsHeldOff.In(reading))
            .Concat(RestTooSoon.In(reading))
            .Where(doubt => doubt.Weakens)
            .Select(doubt => doubt.Pointer)
            .Concat(SaidOtherwise.Standing(reading).Select(entry => entry.Pointer()))
            .ToFrozenSet(StringComparer.Ordinal);

    private static IEnumerable<EntryDoubt> WithoutOffset(TimelineReading reading)
    {
        foreach (var entry in reading.Events)
        {
            if (entry.Event.At is not RecordedTime.LocalTime local)
            {
                continue;
            }

            var isClear = reading.Frame.Context.Zone.InstantOf(local) is ResolvedTime.Unique;
            yield return new(
                CredibilityOf.NoOffset,
                entry.Pointer(),
                isClear
                    ? $"the time `{local.Text}` has no offset from UTC and is read in the site's zone"
                    : $"the time `{local.Text}` has no offset from UTC and falls where the clocks were moved, so its order cannot be told",
                Weakens: !isClear
            );
        }
    }

    private static IEnumerable<EntryDoubt> Labelled(TimelineReading reading) =>
        from entry in reading.Events
        where entry.IsLabelledLate()
        select new EntryDoubt(
            CredibilityOf.LateEntries,
            entry.Pointer(),
            $"{EventWords.Done(entry.Event.Kind)} at {entry.Event.At.Text} is labelled as "
                + (entry.Event.Mark == EntryMark.LateEntry ? "entered later" : "copied from paper"),
            Weakens: false
        );

    private static IEnumerable<EntryDoubt> BackFilled(TimelineReading reading)
    {
        if (reading.EndOfWork() is not { } end)
        {
            yield break;
        }

        foreach (var entry in reading.Events.Where(entry => entry.Event.Mark == EntryMark.AtTheTime))
        {
            if (
                entry.Event.ReceivedAt is { } received
                && JudgedOrder.MomentOf(received, reading.Frame.Context.Zone) is var moment
                && moment - entry.Moment > LongestDelay
                && moment > end.Moment
            )
            {
                yield return new(
                    CredibilityOf.BackFilled,
                    entry.Pointer(),
                    $"{EventWords.Done(entry.Event.Kind)} at {entry.Event.At.Text} was received only at {received.Text}, "
                        + "after the work had ended, and is not labelled as a late entry",
                    Weakens: true
                );
            }
        }
    }

    private static IEnumerable<EntryDoubt> FutureStamps(TimelineReading reading)
    {
        foreach (var entry in reading.Events)
        {
            if (
                entry.Event.ReceivedAt is { } received
                && entry.Moment - JudgedOrder.MomentOf(received, reading.Frame.Context.Zone) > AheadTolerance
            )
            {
                yield return new(
                    CredibilityOf.FutureStamps,
                    entry.Pointer(),
                    $"{EventWords.Done(entry.Event.Kind)} is entered at {entry.Event.At.Text} and was received at "
                        + $"{received.Text} already: nobody enters what is still to come",
                    Weakens: true
                );
            }
        }
    }

    private static IEnumerable<EntryDoubt> ClockBackward(TimelineReading reading)
    {
        var byDevice =
            from entry in reading.Events
            // What is labelled as entered later stands behind its time by its nature.
            where entry.Event is { Device: not null, Sequence: not null } && !entry.IsLabelledLate()
            group entry by entry.Event.Device;
        foreach (var device in byDevice)
        {
            OrderedEvent? before = null;
            foreach (var entry in device.OrderBy(entry => entry.Event.Sequence).ThenBy(entry => entry.Index))
            {
                if (before is not null && before.Moment - entry.Moment > ClockTolerance)
                {
                    yield return new(
                        CredibilityOf.ClockBackward,
                        entry.Pointer(),
                        $"device {device.Key} entered {EventWords.Done(entry.Event.Kind)} at {entry.Event.At.Text} after "
                            + $"{EventWords.Done(before.Event.Kind)} at {before.Event.At.Text}: its clock went back",
                        Weakens: true
                    );
                }

                before = entry;
            }
        }
    }
}
