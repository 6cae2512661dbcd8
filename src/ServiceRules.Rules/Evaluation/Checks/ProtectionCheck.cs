using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class ProtectionCheck
{
    public static CheckOutcome Evaluate(Check.Protection check, Rule rule, JobFrame frame, UnitFrame? unit) =>
        Told.InProgress("not judged yet");
}
