using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Whether the record's own times can be taken at their word. A doubt is unproven, never a breach.</summary>
internal static class CredibilityCheck
{
    public static CheckOutcome Evaluate(Check.Credibility check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        var doubts = CredibilityReading.Of(TimelineReading.Of(frame), check.Of).ToList();
        if (doubts.Count == 0)
        {
            return Told.Met(Sound(check.Of)) with { Notices = Notices(check.Of, frame) };
        }

        return TimelineOutcome.Of(
            Verdict.Unproven,
            FindingReason.NotCredible,
            Sentence(doubts[0].Why) + AndMore(doubts.Count - 1),
            Told.Sorted(doubts.SelectMany(doubt => doubt.Pointers)),
            Advice(check.Of)
        ) with
        {
            Notices = Notices(check.Of, frame),
        };
    }

    private static ImmutableArray<string> Notices(CredibilityOf kind, JobFrame frame) =>
        kind == CredibilityOf.ClockBackward ? [.. NumbersLeftOut.Of(TimelineReading.Of(frame))] : [];

    private static string AndMore(int others) =>
        others switch
        {
            0 => string.Empty,
            1 => " The same holds for one more entry.",
            _ => string.Create(CultureInfo.InvariantCulture, $" The same holds for {others} more entries."),
        };

    private static string Sentence(string why) => SentenceCase.Begin(why) + ".";

    private static string Sound(CredibilityOf kind) =>
        kind switch
        {
            CredibilityOf.NoOffset => "Every time in the timeline has its offset from UTC.",
            CredibilityOf.LateEntries => "No entry is labelled as made later.",
            CredibilityOf.Bursts => "No steps are recorded faster than they can be made.",
            CredibilityOf.BackFilled => "No unlabelled entry is known to have been received after the work.",
            CredibilityOf.ClockBackward => "No device's clock is seen to go back.",
            CredibilityOf.EntryTimes => "No time of a bench entry contradicts its order or the work.",
            CredibilityOf.RecordDate => "The record is dated on a day of its times.",
            CredibilityOf.FutureStamps => "No entry is known to have been received before its time.",
            CredibilityOf.ConflictingDuplicates =>
                "No step is claimed by two people, and no two entries share an identity.",
            CredibilityOf.LockInTwoPlaces =>
                "No lock or tag is known to hang on another machine, or on two isolators, at the time.",
            CredibilityOf.PersonElsewhere => "Nobody is known to be away or at another machine at the time.",
            CredibilityOf.DeviceHistory => "Every lock and tag is put on and taken off in turn.",
            CredibilityOf.StartedHeldOff => "The machine is not started while it is held off.",
            CredibilityOf.OffsetChanges =>
                "No clock is written with another offset from UTC but where the site's clocks were moved.",
            CredibilityOf.UnknownSources => "No entry names a source that the machine is not known to have.",
            CredibilityOf.RestTooSoon => "Nothing is said to be at rest sooner than it can have been seen.",
            _ => throw new ArgumentOutOfRangeException(
                nameof(kind),
                kind,
                "kinds of doubt are a closed family"
            ),
        };

    private static string Advice(CredibilityOf kind) =>
        kind switch
        {
            CredibilityOf.NoOffset => "Set the device to write times with their offset.",
            CredibilityOf.LateEntries =>
                "Nothing to do: a labelled late entry is honest, and weaker evidence.",
            CredibilityOf.ClockBackward =>
                "Check the device's clock, and have somebody who was there confirm the order.",
            CredibilityOf.FutureStamps => "Check the device's clock; record what can be shown.",
            CredibilityOf.ConflictingDuplicates =>
                "Ask both who made the step; take the other entry back, saying why.",
            CredibilityOf.LockInTwoPlaces => "Find out where the lock hung before anybody relies on it.",
            CredibilityOf.PersonElsewhere => "Ask who made these steps, and who was there.",
            CredibilityOf.OffsetChanges =>
                "Ask whoever entered it by which clock; correct the time, saying why.",
            CredibilityOf.UnknownSources =>
                "Correct the name, saying why; or enter the source in the register and the procedure.",
            CredibilityOf.RestTooSoon =>
                "Ask whoever looked when everything stood still; enter what they say as a late entry.",
            CredibilityOf.RecordDate => "Correct the date or the times, saying why.",
            CredibilityOf.DeviceHistory =>
                "Ask whoever hung it when it came off and went on; enter what they say as a late entry.",
            CredibilityOf.StartedHeldOff =>
                "Ask who took the lock off or switched on again, and when; enter it as a late entry.",
            _ => "Ask whoever did the work; label entries that were made later as such.",
        };
}
