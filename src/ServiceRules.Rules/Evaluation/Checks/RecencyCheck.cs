using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Gauges were fit, and calibrations, training and inspections of procedures that the job rests on had not run out on its day.</summary>
internal static class RecencyCheck
{
    public static CheckOutcome Evaluate(Check.Recency check, Rule rule, JobFrame frame, UnitFrame? unit) =>
        check.Of switch
        {
            RecencyOf.Instruments when frame.Gauges.IsEmpty => Told.NotApplicable("No gauge was used."),
            RecencyOf.Instruments => OfInstruments(frame),
            RecencyOf.Training when !TimelineReading.Of(frame).HandsIn.Any() => NobodyNamed(frame),
            RecencyOf.Training => Worst(
                TimelineReading.Of(frame).HandsIn.Select(person => OfPerson(person, frame)),
                "Everybody with hands in was authorised and in date on the day."
            ),
            RecencyOf.ProcedureInspection => OfProcedure(frame),
            _ => throw new InvalidOperationException("what may run out is a closed family"),
        };

    /// <summary>Of nobody it cannot be said that all were authorised.</summary>
    private static CheckOutcome NobodyNamed(JobFrame frame) =>
        Told.Unproven(
            frame.State == RecordState.Open ? FindingReason.InProgress : FindingReason.StepMissing,
            "The record does not show whose hands were in.",
            [],
            new Remedy.Act("record who does the work")
        );

    private static CheckOutcome Worst(IEnumerable<CheckOutcome?> outcomes, string allWell)
    {
        var faults = outcomes
            .OfType<CheckOutcome>()
            .OrderBy(outcome => outcome.Verdict == Verdict.NotMet ? 0 : 1)
            .ToList();
        return faults.Count == 0
            ? Told.Met(allWell)
            : faults[0] with
            {
                Evidence = Told.Sorted(faults.SelectMany(fault => fault.Evidence)),
                Notices = [.. faults.Skip(1).Select(fault => fault.Statement)],
            };
    }

    private static CheckOutcome OfInstruments(JobFrame frame)
    {
        var worst = Worst(
            frame.Gauges.Select((instrument, index) => OfInstrument(instrument, index, frame.Days)),
            "Every gauge used was fit and in date on the day."
        );
        var told = WorthTelling(frame).ToList();
        return worst with
        {
            Notices =
            [
                .. worst.Notices,
                .. told.Select(each => each.Told),
                .. GaugeSilence.Told(frame.Gauges),
            ],
            Evidence = Told.Sorted(worst.Evidence.Concat(told.Select(each => each.Pointer))),
        };
    }

    /// <summary>Of each gauge at most one thing: how the register and the record differ, or else what is not believed of it.</summary>
    private static IEnumerable<(string Pointer, string Told)> WorthTelling(JobFrame frame) =>
        frame.Gauges.SelectMany(
            (gauge, index) =>
            {
                var at = string.Create(CultureInfo.InvariantCulture, $"/instruments/{index}");
                return GaugeByRegister.Differing(gauge) is { } differing ? [(at, differing)]
                    : GaugeStep.IsTooFine(gauge.Resolution, gauge.Kind)
                        ? [(at + "/resolution", StepTaken.Of(gauge, [])!.Words(UnitSystem.Metric))]
                    : gauge.Calibration is { IsTooLong: true } calibration
                        ?
                        [
                            (
                                at + "/calibration",
                                $"of gauge {gauge.Id} {GaugeByRegister.TooLong(calibration)}"
                            ),
                        ]
                    : ImmutableArray<(string, string)>.Empty;
            }
        );

    private const string SetAgain = "Set the gauge on its setting piece and read again.";

    private static CheckOutcome? OfInstrument(Instrument instrument, int index, JobDays days)
    {
        var pointer = string.Create(CultureInfo.InvariantCulture, $"/instruments/{index}");
        return instrument switch
        {
            { Inspection: { Result: Condition.Faulty } inspection } => Fault(
                Verdict.NotMet,
                FindingReason.Faulty,
                $"Gauge {instrument.Id} was found faulty on {Day(inspection.Date)}.",
                pointer,
                "Use another gauge and read again."
            ),
            { Calibration: { } calibration } when calibration.Due < days.Latest => Fault(
                Verdict.NotMet,
                FindingReason.OutOfDate,
                $"The calibration of gauge {instrument.Id} was due on {Day(calibration.Due)}.",
                pointer,
                "Use a gauge that is in date, or have this one calibrated, and read again."
            ),
            { Calibration: { } calibration } when calibration.HoldsUntil < days.Latest => Fault(
                Verdict.Unproven,
                FindingReason.OutOfDate,
                $"The certificate of gauge {instrument.Id} of {Day(calibration.Date)} claims to hold until {Day(calibration.Due)}; none is believed for longer than five years (common practice, no source).",
                pointer,
                "Use a gauge that was calibrated lately, or have this one calibrated, and read again."
            ),
            { Calibration: { } calibration } when calibration.Date > days.Worked => Fault(
                Verdict.NotMet,
                FindingReason.OutOfDate,
                $"Gauge {instrument.Id} was calibrated on {Day(calibration.Date)}, after the day of the job.",
                pointer,
                "Check the dates of the calibration."
            ),
            { ZeroCheck: { } zero } when GaugeFindings.IsOff(instrument, zero) => Fault(
                Verdict.NotMet,
                FindingReason.GaugeUnfit,
                $"The zero check of gauge {instrument.Id} came out {zero.Error} off, more than the {MostZeroError(instrument, zero)} that a zero may be off.",
                pointer,
                SetAgain
            ),
            { ZeroCheckAfter: { } after } when GaugeFindings.IsOff(instrument, after) => Fault(
                Verdict.NotMet,
                FindingReason.GaugeUnfit,
                $"At the end of the job the zero of gauge {instrument.Id} was {after.Error} off, more than the {MostZeroError(instrument, after)} that a zero may be off.",
                pointer,
                SetAgain
            ),
            { ZeroCheckAfter: { } after } when GaugeFindings.HasDrifted(instrument) => Fault(
                Verdict.NotMet,
                FindingReason.GaugeUnfit,
                $"The zero of gauge {instrument.Id} moved by {Wording.Of(GaugeFindings.Drift(instrument)!.Value, after.Error.System)} during the job, more than the {MostZeroError(instrument, after)} that a zero may be off.",
                pointer,
                SetAgain
            ),
            { Inspection: { } inspection } when inspection.Date > days.Worked => Fault(
                Verdict.Unproven,
                FindingReason.OutOfDate,
                $"Gauge {instrument.Id} was inspected on {Day(inspection.Date)}, after the day of the job.",
                pointer,
                "Check the date of the inspection."
            ),
            _ when GaugeByRegister.OtherKind(instrument) is { } other => Fault(
                Verdict.Unproven,
                FindingReason.GaugeUnfit,
                other,
                pointer,
                "Put right whichever is wrong: the record's word or the register's."
            ),
            { Kind: InstrumentKind.PaperStrip } => null,
            { Calibration: null, ZeroCheck: null, Inspection: null } => Fault(
                Verdict.Unproven,
                FindingReason.GaugeUnfit,
                $"The record shows no calibration, zero check or inspection of gauge {instrument.Id}.",
                pointer,
                "Check the gauge on a setting piece, or inspect it, at the start of the job."
            ),
            _ => null,
        };
    }

    private static CheckOutcome? OfPerson(Id<Participant> person, JobFrame frame)
    {
        const string act = "Only people who are authorised and in date put hands in.";
        var days = frame.Days;
        var entry = frame.Context.People.FirstOrDefault(known => known.Id == person)?.On(days.Began);
        return entry switch
        {
            null => Fault(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"The register of people does not have {person}.",
                "/people",
                "Enter the person in the register."
            ),
            { Left: { } left } when left < days.Began => Fault(
                Verdict.NotMet,
                FindingReason.OutOfDate,
                $"{person} had hands in and left on {Day(left)}.",
                "/people",
                act
            ),
            { Authorised: false } => Fault(
                Verdict.NotMet,
                FindingReason.WrongPerson,
                $"{person} had hands in and is not authorised to lock out and work on machines.",
                "/people",
                act
            ),
            { TrainedOn: null } => Fault(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"The register of people has no date of training for {person}.",
                "/people",
                "Enter the date of training in the register."
            ),
            { TrainedOn: { } on } when on > days.Worked => Fault(
                Verdict.NotMet,
                FindingReason.OutOfDate,
                $"{person} was trained on {Day(on)}, after the day of the job.",
                "/people",
                act
            ),
            { TrainedUntil: { } until } when until < days.Latest => Fault(
                Verdict.NotMet,
                FindingReason.OutOfDate,
                $"The training of {person} held until {Day(until)}.",
                "/people",
                act
            ),
            _ => null,
        };
    }

    private static CheckOutcome OfProcedure(JobFrame frame)
    {
        const string act = "Have the procedure inspected by somebody who does not use it.";
        return frame.Procedure switch
        {
            null => TimelineOutcome.NoProcedure(frame),
            { InspectionDue: { } due } procedure when due < frame.Days.Latest => Fault(
                Verdict.NotMet,
                FindingReason.OutOfDate,
                $"The inspection of procedure {procedure.Id} was due on {Day(due)}.",
                "/machine",
                act
            ),
            { LastInspected: { } on } procedure when on > frame.Days.Worked => Fault(
                Verdict.NotMet,
                FindingReason.OutOfDate,
                $"Procedure {procedure.Id} was inspected on {Day(on)}, after the day of the job.",
                "/machine",
                act
            ),
            { LastInspected: { } on, InspectionDue: { } due } procedure => Told.Met(
                $"Procedure {procedure.Id} was inspected on {Day(on)}; the next inspection is due on {Day(due)}.",
                ["/machine"]
            ),
            var procedure => Fault(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"The register does not say when procedure {procedure.Id} was inspected and when it is due.",
                "/machine",
                "Enter the inspection of the procedure in the register."
            ),
        };
    }

    private static CheckOutcome Fault(
        Verdict verdict,
        FindingReason reason,
        string statement,
        string pointer,
        string act
    ) => TimelineOutcome.Of(verdict, reason, statement, [pointer], act);

    private static string MostZeroError(Instrument instrument, ZeroCheck check) =>
        Wording.Of(GaugeFindings.MostZeroError(instrument.Kind), check.Error.System);

    private static string Day(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
