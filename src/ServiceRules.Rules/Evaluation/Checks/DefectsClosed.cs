using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Every safety defect is put right before the machine goes out or is used, by somebody authorised: those that the record
/// finds, and those that other records of the machine left open. One put right is the one found first of those still open in the same record, else
/// on the machine; nothing else in an entry tells them apart.
/// </summary>
internal static class DefectsClosed
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    private const string Act = "Put the defect right before the machine goes out.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var reading = duty.Reading;
        var entries = reading.Of(TimelineEventKind.SafetyDefectFound, TimelineEventKind.SafetyDefectClosed);
        List<TimelineFault> faults = [];
        if (Own(reading, entries) is { } own)
        {
            faults.Add(own);
        }

        if (ClosedTooLate(reading, entries) is { } tooLate)
        {
            faults.Add(tooLate);
        }

        faults.AddRange(
            OfRecord(reading, entries)
                .Select(one => PutRightTooSoon(reading, one.Found, one.Closed))
                .OfType<TimelineFault>()
        );
        faults.AddRange(StartedWithDefect.Faults(duty, OpenFor(reading, entries)));
        faults.AddRange(FaultyGuards.Of(reading));
        if (ComplaintOfDanger.Of(reading) is { } complaint)
        {
            faults.Add(complaint);
        }

        if (!reading.Others.IsEmpty)
        {
            var defects = OfTheMachine(reading);
            faults.AddRange(
                defects
                    .Where(one => one.In is not null)
                    .Select(one => LeftOpen(reading, one))
                    .OfType<TimelineFault>()
            );
            faults.AddRange(defects.Where(one => one.In is null).SelectMany(one => GoneOut(reading, one)));
        }

        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                reading,
                entries.IsEmpty
                    ? "The record shows no safety defect."
                    : "The record shows every safety defect found put right.",
                entries
            );
    }

    private static TimelineFault? Own(TimelineReading reading, ImmutableArray<OrderedEvent> entries)
    {
        var open = new Queue<OrderedEvent>();
        OrderedEvent? byOther = null;
        foreach (var entry in entries)
        {
            if (entry.Event.Kind == TimelineEventKind.SafetyDefectFound)
            {
                open.Enqueue(entry);
            }
            else if (open.Count > 0 && IsDenied(reading, entry))
            {
                byOther ??= entry;
            }
            else
            {
                _ = open.TryDequeue(out var _);
            }
        }

        if (open.Count == 0)
        {
            return null;
        }

        var found = open.Peek();
        var isOut = reading.Of(TimelineEventKind.HandedBack).Any(entry => entry.Place() > found.Place());
        var mayStillBeMended = reading.IsOpen && !isOut;
        var mended = byOther is null
            ? "and does not show it put right"
            : $"and shows it put right only by {byOther.Event.Actor} at {reading.Words.Time(byOther)}, whom the register does not show as authorised";
        return new(
            mayStillBeMended ? Verdict.Unproven : Verdict.NotMet,
            mayStillBeMended ? FindingReason.InProgress
                : byOther is null ? FindingReason.Faulty
                : FindingReason.WrongPerson,
            $"The record shows a safety defect found {reading.Words.AtBy(found)}{What(found)}, {mended}.",
            byOther is null ? [.. open] : [.. open, byOther],
            Act
        );
    }

    /// <summary>Each defect that the record finds, with the entry that puts it right; null: none does.</summary>
    private static IEnumerable<(OrderedEvent Found, OrderedEvent? Closed)> OfRecord(
        TimelineReading reading,
        ImmutableArray<OrderedEvent> entries
    )
    {
        var open = new Queue<OrderedEvent>();
        foreach (var entry in entries)
        {
            if (entry.Event.Kind == TimelineEventKind.SafetyDefectFound)
            {
                open.Enqueue(entry);
            }
            else if (!IsDenied(reading, entry) && open.TryDequeue(out var found))
            {
                yield return (found, entry);
            }
        }

        foreach (var found in open)
        {
            yield return (found, null);
        }
    }

    private static IEnumerable<StartedWithDefect.Open> OpenFor(
        TimelineReading reading,
        ImmutableArray<OrderedEvent> entries
    ) =>
        from one in OfRecord(reading, entries)
        select new StartedWithDefect.Open(
            $"a safety defect found {reading.Words.AtBy(one.Found)}{What(one.Found)}",
            one.Found.Place(),
            one.Closed?.Place(),
            one.Closed is { } closed ? [one.Found, closed] : [one.Found],
            []
        );

    // Handed back again with the defect put right, the machine is out as it should be.
    private static TimelineFault? ClosedTooLate(
        TimelineReading reading,
        ImmutableArray<OrderedEvent> entries
    ) =>
        (
            from one in OfRecord(reading, entries)
            let closed = one.Closed
            where closed is not null
            let handedBack = reading
                .Of(TimelineEventKind.HandedBack)
                .LastOrDefault(back => back.Place() > one.Found.Place())
            where
                handedBack is not null
                && handedBack.Place() < closed.Place()
                && !handedBack.Place().IsInTheMinuteOf(closed.Place())
            select new TimelineFault(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                $"The record shows a safety defect found {reading.Words.AtBy(one.Found)}{What(one.Found)}, and shows it put right only at {reading.Words.Time(closed)}, after {EventWords.Done(handedBack.Event.Kind)} at {reading.Words.Time(handedBack)}.",
                [one.Found, handedBack, closed],
                "Keep the machine in until a defect is put right; where the entry is late, say when it was."
            )
        ).FirstOrDefault();

    // What is entered after the event may say less of seconds; so does one that may put right what another record found.
    private static TimelineFault? PutRightTooSoon(
        TimelineReading reading,
        OrderedEvent found,
        OrderedEvent? closed
    )
    {
        if (
            closed is null
            || found.IsLabelledLate()
            || closed.IsLabelledLate()
            || MayBeOfAnother(reading, closed)
        )
        {
            return null;
        }

        var took = closed.Moment - found.Moment;
        var least = LeastTime.ToPutRight;
        return took + (found.IsToTheMinute() && closed.IsToTheMinute() ? Minute : TimeSpan.Zero) >= least
            ? null
            : new(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"The record shows a safety defect found {reading.Words.AtBy(found)}{What(found)}, and put right {reading.Words.AtBy(closed)}, {SecondsWords.Of(took)} later: to put anything right takes {SecondsWords.Of(least)} at the least.",
                [found, closed],
                "Ask whoever put it right what was done and when; label an entry that was made later as such."
            );
    }

    private static bool MayBeOfAnother(TimelineReading reading, OrderedEvent closed) =>
        reading.Others.Any(other =>
            Entries(other.Reading)
                .Where(entry => entry.Moment < closed.Moment)
                .Sum(entry => entry.Event.Kind == TimelineEventKind.SafetyDefectFound ? 1 : -1) > 0
        );

    private static TimelineFault? LeftOpen(TimelineReading reading, Defect defect) =>
        OutWith(reading, defect) is { } gone
            ? new(
                gone.MayStillBeMended ? Verdict.Unproven : Verdict.NotMet,
                gone.MayStillBeMended ? FindingReason.InProgress : FindingReason.Faulty,
                $"Record {defect.In} shows a safety defect of {reading.Frame.Record.Machine.Id} found {reading.Words.AtBy(defect.Found)}{What(defect.Found)}, and neither it nor this record shows it put right{Before(gone)}; this record shows {EventWords.Done(gone.Entry.Event.Kind)} {reading.Words.AtBy(gone.Entry)}.",
                [gone.Entry],
                Act
            )
            : null;

    private static IEnumerable<TimelineFault> GoneOut(TimelineReading reading, Defect defect) =>
        from other in reading.Others
        let gone = OutWith(other.Reading, defect)
        where gone is { MayStillBeMended: false }
        select new TimelineFault(
            Verdict.NotMet,
            FindingReason.Faulty,
            $"The record shows a safety defect found {reading.Words.AtBy(defect.Found)}{What(defect.Found)}, and record {other.Name} shows {EventWords.Done(gone.Entry.Event.Kind)} {reading.Words.AtBy(gone.Entry)} with it open.",
            [defect.Found],
            "Take the machine back in, and put the defect right before it goes out."
        );

    /// <summary>The entry by which a record lets the machine go with a defect open, or null: it does not.</summary>
    private static Gone? OutWith(TimelineReading reading, Defect defect)
    {
        if (
            reading
                .Of(TimelineEventKind.HandedBack)
                .LastOrDefault(entry => entry.Moment > defect.Found.Moment) is
            { } handedBack
        )
        {
            return defect.Closed <= handedBack.Moment ? null : new(handedBack, MayStillBeMended: false);
        }

        return
            defect.Closed is null
            && reading.Energisings.FirstOrDefault(entry => entry.Moment > defect.Found.Moment) is { } start
            ? new(start, reading.IsOpen)
            : null;
    }

    private static List<Defect> OfTheMachine(TimelineReading reading)
    {
        var all = reading
            .Others.SelectMany(other =>
                Entries(other.Reading).Select(entry => (In: (string?)other.Name, entry))
            )
            .Concat(Entries(reading).Select(entry => (In: (string?)null, entry)))
            .OrderBy(one => one.entry.Moment)
            .ThenBy(one => one.entry.Index);
        List<Defect> defects = [];
        foreach (var (name, entry) in all)
        {
            if (entry.Event.Kind == TimelineEventKind.SafetyDefectFound)
            {
                defects.Add(new(name, entry, null));
            }
            else if (!IsDenied(reading, entry))
            {
                var closed = defects.FindIndex(one => one.Closed is null && one.In == name);
                closed = closed < 0 ? defects.FindIndex(one => one.Closed is null) : closed;
                if (closed >= 0)
                {
                    defects[closed] = defects[closed] with { Closed = entry.Moment };
                }
            }
        }

        return defects;
    }

    private static ImmutableArray<OrderedEvent> Entries(TimelineReading reading) =>
        reading.Of(TimelineEventKind.SafetyDefectFound, TimelineEventKind.SafetyDefectClosed);

    private static bool IsDenied(TimelineReading reading, OrderedEvent closed) =>
        reading
            .Frame.Context.People.FirstOrDefault(person => person.Id == closed.Event.Actor)
            ?.On(reading.Frame.Context.Zone.DayOf(closed.Event.At))
            is { Authorised: false, MayRelease: false };

    private static string Before(Gone gone) =>
        gone.Entry.Event.Kind == TimelineEventKind.HandedBack ? " before" : string.Empty;

    private static string What(OrderedEvent found) =>
        (found.Event.Reason ?? found.Event.Method) is { } what ? $" ({what})" : string.Empty;

    private sealed record Defect(string? In, OrderedEvent Found, Moment? Closed);

    private sealed record Gone(OrderedEvent Entry, bool MayStillBeMended);
}
