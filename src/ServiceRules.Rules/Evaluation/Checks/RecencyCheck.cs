using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class RecencyCheck
{
    public static CheckOutcome Evaluate(Check.Recency check, Rule rule, JobFrame frame, UnitFrame? unit) =>
        Told.InProgress("not judged yet");
}
