using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// The steps turned in this job, told by readings before and after, against the step of the sheet. Silent where the
/// readings are too coarse to tell.
/// </summary>
internal static class StepObtainedCheck
{
    public static CheckOutcome Evaluate(Check.StepObtained check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var subject = $"{Wording.Sentence(Wording.Of(check.Quantity))} steps";
        var tried = unit.StepsTried.Where(each => each.Quantity == check.Quantity).ToList();
        if (
            tried.Count == 0
            || AdjustedQuantity.FinelySetBy(check.Quantity) is not { } kind
            || unit.Sheet.Of(kind)?.OneStep is not { } stated
        )
        {
            return Told.NotApplicable(
                $"{subject}: no readings before and after known steps, so nothing tells what a step moves"
            );
        }

        return Judged(unit, kind, tried, stated, subject);
    }

    private static CheckOutcome Judged(
        UnitFrame unit,
        AdjusterKind kind,
        List<StepsTried> tried,
        Length stated,
        string subject
    )
    {
        var evidence = Told.Sorted(tried.SelectMany(each => each.Evidence));
        if (StepInForce.Learned(unit, kind)?.Proving(stated) is not { } learned)
        {
            return tried.Exists(each => IsBounded(each.Trial.Change))
                ? Told.Unproven(
                    FindingReason.Conflicting,
                    $"{subject}: {Differing(unit, tried)}: one time they moved it by more than the other time allows",
                    evidence,
                    new Remedy.Act(
                        "look for lost motion in the adjuster, then read, turn some steps one way and read again"
                    )
                )
                : Told.NotApplicable($"{subject}: what was read does not tell what a step moves");
        }

        // Of several gauges the one that proves something speaks, not the one that was read last.
        var last = tried.FindLast(each => learned.Trials.Contains(each.Trial)) ?? tried[^1];
        var told = $"{subject}: {Moved(unit, last, stated)}";
        var system = last.System;
        var beside = $"the sheet says {Wording.Of(stated, system)}";
        return learned.Against(stated) switch
        {
            StepAnswer.MovesLess when IsBackwards(learned) => Told.NotMet(
                FindingReason.Faulty,
                $"{told}: the other way, {beside}",
                evidence,
                new Remedy.Act(
                    "see which way the adjuster turns, and that it was noted so; then look for a loose pivot, a worn bearing or a slipping adjuster"
                )
            ),
            StepAnswer.MovesLess => Told.NotMet(
                FindingReason.Faulty,
                $"{told}: {Step(learned, system)} a step, {beside}",
                evidence,
                new Remedy.Act(
                    "look for a loose pivot, a worn bearing or a slipping adjuster before turning further"
                )
            ),
            StepAnswer.MovesMore => Told.NotMet(
                FindingReason.Faulty,
                $"{told}: {Step(learned, system)} a step, {beside}",
                evidence,
                new Remedy.Act(
                    "look for a loose pivot or a worn bearing, and see that the sheet's step is that of this unit"
                )
            ),
            _ when IsTold(learned, stated) => Told.Met(
                $"{told}: {Step(learned, system)} a step, as the sheet says ({Wording.Of(stated, system)})",
                evidence
            ),
            _ => Told.NotApplicable($"{subject}: what was read is too coarse to tell what a step moves"),
        };
    }

    /// <summary>Proven to have moved the other way.</summary>
    private static bool IsBackwards(LearnedStep learned) =>
        learned.PerStep.AsInterval().Upper is { } most && most.Value < Length.Zero;

    /// <summary>Known to within half a step either way: a step that did nothing, or two, would have been seen.</summary>
    private static bool IsTold(LearnedStep learned, Length stated) =>
        learned.PerStep.AsInterval().Width is { } width && width <= stated.Abs;

    /// <summary>The one that moved least at most and the one that moved most at least, each told alone.</summary>
    private static string Differing(UnitFrame unit, List<StepsTried> tried)
    {
        var told = tried
            .Select(each => (Tried: each, Learned: LearnedStep.From([each.Trial])))
            .Where(each => each.Learned is not null)
            .ToList();
        var little = told.Where(each => each.Learned!.PerStep.AsInterval().Upper is not null)
            .MinBy(each => each.Learned!.PerStep.AsInterval().Upper!.Value.Value);
        var much = told.Where(each => each.Learned!.PerStep.AsInterval().Lower is not null)
            .MaxBy(each => each.Learned!.PerStep.AsInterval().Lower!.Value.Value);
        return string.Join(
            ", ",
            told.Where(each => each == little || each == much)
                .Select(each =>
                    $"{UnitPlaces.Of(unit, each.Tried.Quantity).Said(each.Tried.Station, each.Tried.Blade)} {Step(each.Learned!, each.Tried.System)} a step"
                )
        );
    }

    private static bool IsBounded(Knowledge change) =>
        change is not LengthInterval interval || interval.Lower is not null || interval.Upper is not null;

    /// <summary>The last trial in words: what it did, and what the sheet's step should have made of it.</summary>
    private static string Moved(UnitFrame unit, StepsTried last, Length stated)
    {
        var place = UnitPlaces.Of(unit, last.Quantity).Said(last.Station, last.Blade);
        var at = place == "across" ? string.Empty : $" at {place}";
        var predicted = Wording.Of((stated * last.Trial.Steps).Abs, last.System);
        var steps =
            string.Create(CultureInfo.InvariantCulture, $"{last.Turned}")
            + (last.Turned == 1 ? " step " : " steps ")
            + Way(last);
        var change = Known(
            last.Trial.Steps > 0 ? last.Trial.Change : Negated.Of(last.Trial.Change),
            last.System
        );
        return $"{steps} moved it {change}{at}, where {predicted} was predicted";
    }

    private static string Way(StepsTried last) =>
        (
            last.Trial.Steps > 0,
            last.Quantity is MeasuredQuantity.HeightOfCut or MeasuredQuantity.GroomerHeight
        ) switch
        {
            (true, true) => "up",
            (false, true) => "down",
            (true, false) => "open",
            _ => "closed",
        };

    private static string Step(LearnedStep learned, UnitSystem system) => Known(learned.PerStep, system);

    private static string Known(Knowledge knowledge, UnitSystem system) =>
        knowledge is MeasuredValue measured ? Wording.Of(measured, system) : Wording.Of(knowledge, system);
}
