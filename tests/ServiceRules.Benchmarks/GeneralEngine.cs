using RulesEngine.Models;

namespace ServiceRules.Benchmarks;

/// <summary>
/// The same limits as expressions of a general-purpose rules library. It answers yes or no to "met", so that it does
/// a third of the deciding; the facts are made for it by <see cref="PlainJudge"/>.
/// </summary>
internal static class GeneralEngine
{
    private const string Name = "limits";

    public static RulesEngine.RulesEngine Compile() =>
        new([
            new Workflow
            {
                WorkflowName = Name,
                Rules =
                [
                    Inside(LimitRules.Clearance, "ClearanceLeft", "ClearanceRight"),
                    Inside(LimitRules.HeightInRange, "RangeLeft", "RangeRight"),
                    Inside(LimitRules.HeightOnTarget, "TargetLeft", "TargetRight"),
                    Inside(LimitRules.Shield, "ShieldLeft", "ShieldRight"),
                    Inside(LimitRules.ReelInService, "ReelInService"),
                    Inside(LimitRules.ReelNotWorn, "ReelNotWorn"),
                ],
            },
        ]);

    public static List<RuleResultTree> Judge(RulesEngine.RulesEngine engine, SetUpFacts facts) =>
        engine
            .ExecuteAllRulesAsync(Name, new RuleParameter("facts", facts))
            .AsTask()
            .GetAwaiter()
            .GetResult();

    private static Rule Inside(string rule, params string[] places) =>
        new()
        {
            RuleName = rule,
            Expression = string.Join(
                " && ",
                places.Select(place =>
                    $"facts.{place}.Low >= facts.{place}.Lower && facts.{place}.High <= facts.{place}.Upper"
                )
            ),
        };
}
