using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>Checks of the job's people, gauges and papers.</summary>
internal static class JobKinds
{
    public static Possible Part(Facts facts, RequiredPart part)
    {
        var record = facts.Record;
        switch (part)
        {
            case RequiredPart.SignOff:
                return record.SignOff is not { } sign ? Possible.Unproven
                    : WorkGoesOnAfter(sign.At, facts) ? Possible.Unproven
                    : record.People.Any(p => p.Id == sign.By && p.Role == JobRole.Performs) ? Possible.Met
                    : Possible.NeverMet;
            case RequiredPart.FollowUp:
                return record.FollowUp is not { } check ? Possible.Unproven
                    : check.Result == Condition.Faulty ? Possible.NotMet
                    : Possible.NeverNotMet;
            case RequiredPart.BlockageByTool:
                return record.Timeline.Any(e => e.Kind == TimelineEventKind.BlockageClearedByHand)
                        ? Possible.NotMet
                    : record.Timeline.Any(e => e.Kind == TimelineEventKind.BlockageClearedWithTool)
                        ? Possible.NeverNotMet
                    : Possible.Unproven;
            default:
                int found = record.Timeline.Count(e => e.Kind == TimelineEventKind.SafetyDefectFound);
                int closed = record.Timeline.Count(e => e.Kind == TimelineEventKind.SafetyDefectClosed);
                bool? guards = GuardsLeftFaulty(record);
                return found == 0 && guards == false ? Possible.Met
                    : IsUsedWithADefect(facts) ? Possible.NotMet
                    : closed > 0 ? Possible.Judged
                    : found == 0 && guards is null ? Possible.Judged
                    : facts.IsOpen ? Possible.Unproven | Possible.NotMet
                    : Possible.NotMet;
        }
    }

    /// <summary>Guards seen faulty that nobody looked at or fitted again; null: somebody did, and it is a question what that shows.</summary>
    private static bool? GuardsLeftFaulty(ServiceRecord record)
    {
        bool? left = false;
        foreach (var unit in record.Units)
        {
            bool isFaulty = false;
            bool wasFaulty = false;
            bool isSound = false;
            foreach (var entry in unit.Entries)
            {
                if (entry is Reading { Quantity: MeasuredQuantity.Guards, Observed: Observation.Seen seen })
                {
                    isFaulty = seen.Condition == Condition.Faulty;
                    wasFaulty |= isFaulty;
                    isSound |= !isFaulty;
                }
                else if (entry is PartFitted { Part: PartKind.Guard })
                {
                    (isFaulty, isSound) = (false, false);
                }
            }

            // Sound and faulty with nothing fitted between is a question, whichever was last.
            if (isFaulty && !isSound)
            {
                return true;
            }

            left = wasFaulty ? null : left;
        }

        return left;
    }

    /// <summary>
    /// Whether the machine is plainly used while a defect is open: started after the first is found and before any is put right,
    /// for no test, with no word of the cut-outs after it.
    /// </summary>
    private static bool IsUsedWithADefect(Facts facts)
    {
        Moment? found = null;
        foreach (var (entry, at) in InTime(facts))
        {
            if (entry.Kind == TimelineEventKind.SafetyDefectClosed)
            {
                return false;
            }

            if (entry.Kind == TimelineEventKind.SafetyDefectFound)
            {
                found ??= at;
            }
            else if (
                entry.Kind == TimelineEventKind.MachineStarted
                && found < at
                && !InTime(facts).Any(other => other.At >= at && IsOpenToDoubt(other, at))
            )
            {
                return true;
            }
        }

        return false;

        static bool IsOpenToDoubt((TimelineEvent Entry, Moment At) other, Moment start) =>
            other.Entry.Kind == TimelineEventKind.CutOutsProved
            || (other.At == start && other.Entry.Kind == TimelineEventKind.SafetyDefectClosed);
    }

    private static IEnumerable<(TimelineEvent Entry, Moment At)> InTime(Facts facts) =>
        facts
            .Record.Timeline.Where(
                (entry, at) =>
                    !facts.Record.Timeline.Take(at).Any(other => SafeWork.Story.IsSentAgain(other, entry))
            )
            .Select(entry => (entry, MomentOf(entry.At, facts)))
            .OrderBy(one => one.Item2);

    private static bool WorkGoesOnAfter(RecordedTime signed, Facts facts)
    {
        foreach (var entry in facts.Record.Timeline)
        {
            if (entry.Kind is not (TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped))
            {
                continue;
            }

            if (MomentOf(entry.At, facts) > MomentOf(signed, facts))
            {
                return true;
            }
        }

        return false;
    }

    private static Moment MomentOf(RecordedTime time, Facts facts) =>
        time switch
        {
            RecordedTime.Instant instant => instant.Moment,
            RecordedTime.LocalTime local => facts.Context.Zone.InstantOf(local) switch
            {
                ResolvedTime.Unique unique => unique.Moment,
                ResolvedTime.Ambiguous two => two.Earliest,
                _ => Moment.From(DateTimeOffset.MinValue),
            },
            _ => Moment.From(DateTimeOffset.MinValue),
        };

    public static Possible Recent(Facts facts, RecencyOf of)
    {
        var (last, worked) = (facts.LastDay, facts.WorkedDay);
        switch (of)
        {
            case RecencyOf.Training:
                var sum = Possible.Met;
                foreach (var person in facts.HandsIn)
                {
                    var known = facts.Context.People.FirstOrDefault(p => p.Id == person.Id);
                    sum = sum.And(
                        known is null ? Possible.Unproven
                        : !known.Authorised || known.TrainedUntil < last ? Possible.NotMet
                        : known.TrainedOn is null || known.TrainedOn > worked ? Possible.Judged
                        : Possible.Met
                    );
                }

                return facts.HandsIn.Count == 0 ? Possible.Any : sum;
            case RecencyOf.ProcedureInspection:
                return facts.Procedure is not { } procedure ? Possible.Unproven
                    : procedure.InspectionDue < last ? Possible.NotMet
                    : procedure.InspectedOn is null && procedure.InspectionDue is null ? Possible.Unproven
                    : procedure.InspectedOn is null
                    || procedure.InspectedOn > worked
                    || procedure.InspectionDue is null
                        ? Possible.Judged
                    : Possible.Met;
            default:
                return Instruments(facts);
        }
    }

    private static Possible Instruments(Facts facts)
    {
        if (facts.Record.Instruments.IsEmpty)
        {
            return Possible.NotApplicable;
        }

        var readings = facts.Record.Units.SelectMany(u => u.Entries.OfType<Reading>()).ToList();
        var sum = Possible.Met;
        foreach (var gauge in facts.Record.Instruments)
        {
            sum = sum.And(
                Gauges.IsUnfit(gauge, facts) ? Possible.NotMet
                : gauge
                    is {
                        Kind: not InstrumentKind.PaperStrip,
                        Calibration: null,
                        ZeroCheck: null,
                        Inspection: null
                    }
                    ? Possible.Unproven
                : gauge.Inspection?.Date > facts.WorkedDay ? Possible.Judged
                : gauge is { ZeroCheck: not null, Resolution: null } ? Possible.Judged
                : Possible.Met
            );
        }

        // A gauge that nobody noted may be told here or where it was used.
        bool unnamed = readings.Any(r =>
            r.Instrument is null && r.Observed is Observation.Measured or Observation.FeelerTest
        );
        return unnamed ? sum | sum.And(Possible.Unproven) : sum;
    }

    public static Possible Credible(Facts facts, CredibilityOf of)
    {
        if (of == CredibilityOf.RecordDate)
        {
            var days = facts.TimedDays;
            bool within = days.Count > 0 && days[0] <= facts.Record.Date && facts.Record.Date <= days[^1];
            return within ? Possible.Met : Possible.Unproven;
        }

        var timeline = facts.Record.Timeline;
        if (timeline.IsEmpty)
        {
            return Possible.Any & ~Possible.NotMet;
        }

        bool? doubt = of switch
        {
            CredibilityOf.NoOffset => timeline.Any(e => e.At is RecordedTime.LocalTime),
            CredibilityOf.LateEntries => timeline.Any(e =>
                e.Mark is EntryMark.LateEntry or EntryMark.Transcription
            ),
            // One offset in everything that is said is no change; more may be one, or a change of the site's clocks.
            CredibilityOf.OffsetChanges
                when timeline
                    .Select(e => e.At)
                    .OfType<RecordedTime.Instant>()
                    .Select(at => at.LocalOffsetMinutes ?? 0)
                    .Distinct()
                    .Count() < 2 => false,
            CredibilityOf.UnknownSources => SourcesUnknown(facts),
            _ => null,
        };
        return doubt switch
        {
            true => Possible.Unproven,
            false => Possible.Met,
            null => Possible.NeverNotMet | Possible.NotApplicable,
        };
    }

    /// <summary>Whether an entry names a source that is neither the machine's nor the procedure's, nor came; null: perhaps.</summary>
    private static bool? SourcesUnknown(Facts facts)
    {
        var described = (facts.Procedure?.Sources ?? [])
            .Concat(
                facts.Record.Place == WorkPlace.OnMachine
                    ? facts
                        .Context.Machines.Where(m => m.Id == facts.Record.Machine.Id)
                        .SelectMany(m => m.Sources)
                    : []
            )
            .Select(source => source.Id)
            .ToHashSet();
        if (described.Count == 0)
        {
            return false;
        }

        var named = facts
            .Record.Timeline.Where(e => e.Kind != TimelineEventKind.SourceAdded)
            .Where(e => e.Source is SourceReference.One one && !described.Contains(one.Source))
            .ToList();
        bool mayHaveCome = facts.Record.Timeline.Any(e => e.Kind == TimelineEventKind.SourceAdded);
        return named.Count == 0 ? false
            : mayHaveCome || named.TrueForAll(e => e.EventId is not null) ? null
            : true;
    }
}
