using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Adjustments come in the order of the rule. An earlier kind turned after a later one is out of order unless
/// a reading of what the later one set still holds. Times that contradict the order of the log prove nothing.
/// </summary>
internal static class OrderOfWorkCheck
{
    public static CheckOutcome Evaluate(Check.OrderOfWork check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var turns = unit
            .Work.Entries.Select((entry, index) => (Turn: entry as Adjustment, Index: index))
            .Where(item => item.Turn is { } turn && check.Order.Contains(turn.Adjuster))
            .Select(item => new Turned(item.Turn!, item.Index, check.Order.IndexOf(item.Turn!.Adjuster)))
            .ToList();
        if (turns.Count == 0)
        {
            return Told.NotApplicable("Order of work: nothing that has an order was turned");
        }

        var evidence = turns.ConvertAll(turn => Pointers.Entry(unit.Index, turn.Index));
        if (OutOfOrder(turns, rule, frame, unit) is { } breach)
        {
            return breach;
        }

        return TimesContradict(turns, frame)
            ? Told.Unproven(
                FindingReason.NotCredible,
                "Order of work: the times of the adjustments contradict the order in which they are written down",
                [.. evidence],
                new Remedy.Act("have the person who did the work say in which order it was done")
            )
            : Told.Met($"Order of work: {Said(turns)}", [.. evidence]);
    }

    private static CheckOutcome? OutOfOrder(List<Turned> turns, Rule rule, JobFrame frame, UnitFrame unit)
    {
        foreach (var earlier in turns)
        {
            var before = turns.LastOrDefault(turn =>
                turn.Rank > earlier.Rank
                && turn.Index < earlier.Index
                && !StillHolds(AdjustedQuantity.SetBy(turn.Turn.Adjuster), rule, frame, unit)
            );
            if (before is not null)
            {
                var set = AdjustedQuantity.SetBy(before.Turn.Adjuster);
                return Told.NotMet(
                    FindingReason.WrongOrder,
                    $"Order of work: {Wording.Of(earlier.Turn.Adjuster)} was turned after {Wording.Of(before.Turn.Adjuster)}, and no reading of the {Wording.Of(set)} holds since",
                    [Pointers.Entry(unit.Index, before.Index), Pointers.Entry(unit.Index, earlier.Index)],
                    new Remedy.ReadAgain(set, [], "something that comes before it was turned after it")
                );
            }
        }

        return null;
    }

    /// <summary>
    /// The setting was read after it was made, and nothing turned since made that reading void: then the order did no
    /// harm, because the sheet says that it disturbs nothing or because it was read again.
    /// </summary>
    private static bool StillHolds(MeasuredQuantity set, Rule rule, JobFrame frame, UnitFrame unit) =>
        FreshnessCheck.Evaluate(new(set), rule, frame, unit).Verdict is Verdict.Met;

    private static bool TimesContradict(List<Turned> turns, JobFrame frame)
    {
        var timed = turns
            .Where(turn => turn.Turn.At is not null)
            .Select(turn => JudgedOrder.MomentOf(turn.Turn.At!, frame.Context.Zone))
            .ToImmutableArray();
        return timed.Zip(timed.Skip(1)).Any(pair => pair.Second < pair.First);
    }

    private static string Said(List<Turned> turns) =>
        string.Join(
            ", then ",
            turns
                .Select(turn => turn.Turn.Adjuster)
                .Aggregate(
                    ImmutableArray<AdjusterKind>.Empty,
                    (said, next) => said.IsEmpty || said[^1] != next ? said.Add(next) : said
                )
                .Select(Wording.Of)
        );

    private sealed record Turned(Adjustment Turn, int Index, int Rank);
}
