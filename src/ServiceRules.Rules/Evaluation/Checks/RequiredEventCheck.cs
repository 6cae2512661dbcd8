using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class RequiredEventCheck
{
    public static CheckOutcome Evaluate(
        Check.RequiredEvent check,
        Rule rule,
        JobFrame frame,
        UnitFrame? unit
    ) => Told.InProgress("not judged yet");
}
