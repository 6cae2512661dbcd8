using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class SpreadCheck
{
    public static CheckOutcome Evaluate(Check.Spread check, Rule rule, JobFrame frame, UnitFrame? unit) =>
        Told.InProgress("not judged yet");
}
