using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class RecordPartCheck
{
    public static CheckOutcome Evaluate(Check.RecordPart check, Rule rule, JobFrame frame, UnitFrame? unit) =>
        Told.InProgress("not judged yet");
}
