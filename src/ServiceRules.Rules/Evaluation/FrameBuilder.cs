using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// Makes the <see cref="JobFrame"/> of a record: what was in force on its day, its timeline in judged order, and what
/// is known of every quantity of every unit. A function of its inputs alone.
/// </summary>
public static class FrameBuilder
{
    /// <summary>Builds the frame.</summary>
    /// <param name="record">A record that was read without problems.</param>
    /// <param name="context">The frozen registers.</param>
    /// <param name="book">Rules and limit sheets in force.</param>
    /// <exception cref="ArgumentException">
    /// A unit is held to a sheet that the book does not have; <see cref="UnknownSheets"/> tells them beforehand.
    /// </exception>
    public static JobFrame Build(ServiceRecord record, AssessmentContext context, RuleBook book)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(book);
        var settings = SettingsInForce.On(record, context);
        var days = JobDays.Of(record, context);
        var placeAgainst = PlaceContradicted.By(record, context.Procedures, days.Began);
        var inPlace = PlaceContradicted.UnitsInPlace(record, context.Procedures, days.Began);
        var ofAMachine = PlaceContradicted.PartsOfAMachine(record, context.Procedures, days.Began);
        if (!placeAgainst.IsEmpty || !inPlace.IsEmpty || !ofAMachine.IsEmpty)
        {
            record = record with { Place = WorkPlace.OnMachine };
        }

        var held = record with { Instruments = GaugesHeld.Of(record, context) };
        var units = ImmutableArray.CreateBuilder<UnitFrame>(record.Units.Length);
        for (var index = 0; index < record.Units.Length; index++)
        {
            units.Add(Unit(held, index, settings, book, days));
        }

        return new()
        {
            Record = record,
            PlaceAgainst = placeAgainst,
            UnitsInPlace = inPlace,
            PartsOfAMachine = ofAMachine,
            Context = context,
            Book = book,
            Units = units.MoveToImmutable(),
            Procedure = ProcedureOf(record, context, days),
            Events = JudgedOrder.Of(record.Timeline, context.Zone),
            Days = days,
            State = StateOf(record),
        };
    }

    /// <summary>The frame as it would be with another bench log of one unit.</summary>
    internal static JobFrame WithEntries(JobFrame frame, int index, ImmutableArray<BenchEntry> entries)
    {
        var record = frame.Record with
        {
            Units = frame.Record.Units.SetItem(index, frame.Record.Units[index] with { Entries = entries }),
        };
        var unit = Unit(
            record with
            {
                Instruments = GaugesHeld.Of(record, frame.Context),
            },
            index,
            SettingsInForce.On(record, frame.Context),
            frame.Book,
            frame.Days
        );
        return frame with { Record = record, Units = frame.Units.SetItem(index, unit) };
    }

    /// <summary>JSON pointers of the units whose sheet the book does not have.</summary>
    public static ImmutableArray<string> UnknownSheets(ServiceRecord record, RuleBook book)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(book);
        return
        [
            .. record
                .Units.Select((unit, index) => (unit, index))
                .Where(item => book.Sheet(item.unit.Sheet) is null)
                .Select(item => $"{Pointers.Unit(item.index)}/sheet"),
        ];
    }

    private static UnitFrame Unit(
        ServiceRecord record,
        int index,
        SettingsInForce settings,
        RuleBook book,
        JobDays days
    )
    {
        var work = record.Units[index];
        var sheet =
            book.Sheet(work.Sheet)
            ?? throw new ArgumentException(
                $"unit `{work.Id}` is held to limit sheet `{work.Sheet}`, which is not among the sheets in force",
                nameof(record)
            );
        var readings = BenchLog.Of(work, index, sheet, record);
        var trials = new StepTrials(work, sheet, days);
        var steps = trials.In(readings);
        var distances = trials.ByDistance(readings);
        var shifts = ShiftsInForce.From(
            trials.Carried(readings),
            trials.Carried(readings, withAnyGauge: true),
            sheet,
            distances
        );
        var cards = settings.CardsFor(work.Sheet);
        return new()
        {
            Work = work,
            Index = index,
            Sheet = sheet,
            Tasks = work.Tasks.IsEmpty ? record.Tasks : work.Tasks,
            School = settings.SchoolFor(work.Sheet),
            Targets = settings.TargetsFor(work.Sheet, cards),
            Cards = cards,
            Mowing = settings.MowingFor(work.Sheet),
            Known = UnitKnowledge.Of(
                work,
                shifts.IsOfSheet ? readings : BenchLog.Of(work, index, sheet, record, shifts),
                sheet,
                record,
                days,
                steps
            ),
            LengthsTold = readings
                .Where(reading => reading.Told is not null)
                .ToImmutableDictionary(
                    reading => reading.Pointer,
                    reading => reading.Told!.Value,
                    StringComparer.Ordinal
                ),
            StepsTried = steps,
            DistancesTried = distances,
            ShiftsLearned = shifts.Learned,
        };
    }

    // People go by what is in force when they begin, whatever day the record is dated.
    private static Procedure? ProcedureOf(ServiceRecord record, AssessmentContext context, JobDays days) =>
        ProcedureInUse.Of(record, context.Procedures, days.Began) is { IsInForce: true, Procedure: var used }
            ? used
            : null;

    private static RecordState StateOf(ServiceRecord record) =>
        record switch
        {
            { SignOff: null } => RecordState.Open,
            { FollowUp: null } => RecordState.SignedOff,
            _ => RecordState.FollowedUp,
        };
}
