using System.Collections.Immutable;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>How the outcome of a timeline check is put together, the same way for every kind.</summary>
internal static class TimelineOutcome
{
    // Runs times works of one record may be a hundred thousand faults: what nobody reads is counted.
    private const int MostTold = 40;

    /// <summary>The requirement is about something that this job or machine does not have.</summary>
    public static CheckOutcome NotApplicable(string statement) =>
        new()
        {
            Verdict = Verdict.NotApplicable,
            Reason = FindingReason.None,
            Statement = statement,
        };

    /// <summary>Nothing says what energy there is at this machine and place.</summary>
    public static CheckOutcome NoProcedure(JobFrame frame) =>
        frame.Procedure is { } procedure
            ? Of(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"Procedure {procedure.Id} names no source of energy of {frame.Record.Machine.Id} at this place of work, nor does the register of machines, so the record cannot be held against any.",
                [],
                "Enter the sources of energy in the procedure and the register of machines."
            )
            : Of(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"No written make-safe procedure is registered for {frame.Record.Machine.Id} at this place of work, so the record cannot be held against one.",
                [],
                "Register the make-safe procedure of this machine."
            );

    /// <summary>A step is asked of each person with hands in, and the record names none.</summary>
    public static CheckOutcome NobodyNamed() =>
        Of(
            Verdict.Unproven,
            FindingReason.StepMissing,
            "The record names nobody who did the work.",
            [],
            "Name who performed and who assisted."
        );

    /// <summary>A plain outcome with something to do about it.</summary>
    public static CheckOutcome Of(
        Verdict verdict,
        FindingReason reason,
        string statement,
        ImmutableArray<string> evidence,
        string? act
    ) =>
        new()
        {
            Verdict = verdict,
            Reason = reason,
            Statement = statement,
            Evidence = evidence,
            Remedy = act is null ? null : new Remedy.Act(act),
        };

    /// <summary>Two outcomes of one duty, neither of them met: the worse, and beside it what the other says.</summary>
    public static CheckOutcome OfBoth(CheckOutcome one, CheckOutcome other)
    {
        var (worse, beside) =
            one.Verdict != Verdict.NotMet && other.Verdict == Verdict.NotMet ? (other, one) : (one, other);
        return worse with
        {
            Evidence =
            [
                .. worse
                    .Evidence.Concat(beside.Evidence)
                    .Distinct(StringComparer.Ordinal)
                    .Order(StringComparer.Ordinal),
            ],
            StillToDo =
            [
                .. worse.StillToDo.Concat(beside.StillToDo).Distinct(StringComparer.Ordinal).Take(MostTold),
            ],
            Notices =
            [
                .. worse
                    .Notices.Append(beside.Statement)
                    .Concat(beside.Notices)
                    .Distinct(StringComparer.Ordinal),
            ],
        };
    }

    /// <summary>The worst fault first, the others as notices.</summary>
    public static CheckOutcome OfFaults(IReadOnlyCollection<TimelineFault> faults)
    {
        var worst = faults.OrderBy(fault => fault.Verdict == Verdict.NotMet ? 0 : 1).ToList();
        return Of(
            worst[0].Verdict,
            worst[0].Reason,
            worst[0].Text,
            [
                .. worst
                    .SelectMany(fault => fault.Entries)
                    .Evidence()
                    .Concat(worst.SelectMany(fault => fault.Beside ?? []))
                    .Distinct(StringComparer.Ordinal)
                    .Order(StringComparer.Ordinal),
            ],
            worst[0].Act
        ) with
        {
            StillToDo =
            [
                .. worst
                    .Select(fault => fault.StillToDo)
                    .OfType<string>()
                    .Distinct(StringComparer.Ordinal)
                    .Take(MostTold),
            ],
            Notices = Told(
                worst.Skip(1).Select(fault => fault.Text).Distinct(StringComparer.Ordinal).ToList()
            ),
        };
    }

    // Where steps before the work and after it are denied at once, what is due first is said.
    private static string Due(List<OrderedEvent> denied) =>
        denied.TrueForAll(entry =>
            entry.Event.Kind
                is TimelineEventKind.GuardsRefitted
                    or TimelineEventKind.AreaInspected
                    or TimelineEventKind.SafetyDefectClosed
                    or TimelineEventKind.ExposureChecked
                    or TimelineEventKind.RemovalNotified
                    or TimelineEventKind.PeopleClearChecked
        )
            ? "before the machine is started or handed back"
            : "before hands go in";

    private static ImmutableArray<string> Told(List<string> others) =>
        others.Count <= MostTold
            ? [.. others]
            :
            [
                .. others.Take(MostTold),
                $"And {others.Count - MostTold} more of the kind, among the entries named.",
            ];

    /// <summary>
    /// Met, unless it rests on entries that are not credible: then unproven. Labelled late entries are told beside it.
    /// </summary>
    /// <param name="reading">The timeline.</param>
    /// <param name="statement">What the record shows.</param>
    /// <param name="restsOn">The entries without which it would not be met.</param>
    public static CheckOutcome Met(
        TimelineReading reading,
        string statement,
        IReadOnlyCollection<OrderedEvent> restsOn
    )
    {
        var doubtful = restsOn.Where(entry => reading.Weakened.Contains(entry.Pointer())).ToList();
        var denied = doubtful.FindAll(entry => SaidOtherwise.By(entry.Event));
        if (denied.Count > 0)
        {
            var byTime = doubtful.Except(denied).Select(reading.Words.Time).ToList();
            var besides =
                byTime.Count == 0
                    ? string.Empty
                    : $", and the times of others are not credible enough to prove it ({TimelineWords.Span(byTime)})";
            return Of(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"{statement.TrimEnd('.')}, but {TimelineWords.List(denied.Select(entry => $"the entry at {reading.Words.Time(entry)} says `{SaidOtherwise.Words(entry.Event)}`"))}{besides}.",
                doubtful.Evidence(),
                $"Have somebody who was there say what came of it; where that is not known, do it again {Due(denied)}."
            );
        }

        if (doubtful.Count > 0)
        {
            var words = reading.Words;
            var times = TimelineWords.Span(doubtful.Select(words.Time));
            return Of(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"{statement.TrimEnd('.')}, but the times of the entries are not credible enough to prove it ({times}).",
                doubtful.Evidence(),
                "Have somebody who was there confirm what happened and when."
            );
        }

        var late = restsOn.Count(entry => entry.IsLabelledLate());
        return Of(Verdict.Met, FindingReason.None, statement, restsOn.Evidence(), null) with
        {
            Notices =
                late == 0
                    ? []
                    :
                    [
                        $"It rests on {late} {(late == 1 ? "entry" : "entries")} labelled as made later: weaker evidence.",
                    ],
        };
    }
}
