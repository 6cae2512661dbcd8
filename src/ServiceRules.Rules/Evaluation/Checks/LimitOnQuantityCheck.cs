using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class LimitOnQuantityCheck
{
    public static CheckOutcome Evaluate(
        Check.LimitOnQuantity check,
        Rule rule,
        JobFrame frame,
        UnitFrame? unit
    ) => Told.InProgress("not judged yet");
}
