using System.Collections.Immutable;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Where the target in force comes from: a job card that moved it or was not taken, and an area that does not fit.</summary>
internal static class TargetTold
{
    /// <summary>No target is in force: why, as far as the record and the orders tell.</summary>
    public static CheckOutcome Missing(
        CheckOutcome missing,
        Check.LimitOnQuantity check,
        JobFrame frame,
        UnitFrame unit
    ) =>
        check.Against is not LimitSource.SettingOrder ? missing
        : SettingsInForce.On(frame.Record, frame.Context).AreaUnknown(check.Quantity) is { } unknown
            ? missing with
            {
                Statement = $"{missing.Statement}: {unknown}",
                Notices = [.. missing.Notices, .. Cards(check, unit)],
            }
        : missing with { Notices = [.. missing.Notices, .. Cards(check, unit)] };

    /// <summary>A target for an area on which the register does not have the machine proves nothing met.</summary>
    public static CheckOutcome InDoubt(CheckOutcome outcome, Check.LimitOnQuantity check, JobFrame frame) =>
        check.Against is LimitSource.SettingOrder
        && outcome.Verdict is Verdict.Met
        && NotOfTheMachine(frame) is { } elsewhere
            ? Told.Unproven(
                FindingReason.NoSettingInForce,
                $"{Wording.Sentence(Wording.Of(check.Quantity))}: whose target counts is in doubt: {elsewhere}",
                remedy: new Remedy.Act(
                    "name the area that the machine goes to, or have the lead enter it in the register"
                )
            ) with
            {
                Comparisons = outcome.Comparisons,
                Evidence = outcome.Evidence,
                Notices = outcome.Notices,
            }
            : outcome;

    /// <summary>What is told beside a verdict.</summary>
    public static IEnumerable<string> Notices(Check.LimitOnQuantity check, JobFrame frame, UnitFrame unit) =>
        check.Against is not LimitSource.SettingOrder
            ? []
            :
            [
                .. Cards(check, unit),
                .. SettingsInForce.On(frame.Record, frame.Context).AreaUnknown(check.Quantity) is { } unknown
                    ? ImmutableArray.Create(unknown)
                    : [],
                .. NotOfTheMachine(frame) is { } elsewhere ? ImmutableArray.Create(elsewhere) : [],
            ];

    private static IEnumerable<string> Cards(Check.LimitOnQuantity check, UnitFrame unit) =>
        unit.Cards.Where(card => card.Asked.Quantity == check.Quantity).Select(card => card.Words);

    private static string? NotOfTheMachine(JobFrame frame)
    {
        var machine = frame.Record.Machine;
        return
            frame.Context.Machines.FirstOrDefault(one => one.Id == machine.Id)
                is { Areas.IsEmpty: false } known
            && machine.Area is { } area
            && !known.Areas.Contains(area, StringComparer.Ordinal)
            ? $"the record has machine {machine.Id} on `{area}`, and the register on {Wording.Listed([.. known.Areas.Select(one => $"`{one}`")])}"
            : null;
    }
}
