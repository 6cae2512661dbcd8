using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class CredibilityCheck
{
    public static CheckOutcome Evaluate(
        Check.Credibility check,
        Rule rule,
        JobFrame frame,
        UnitFrame? unit
    ) => Told.InProgress("not judged yet");
}
