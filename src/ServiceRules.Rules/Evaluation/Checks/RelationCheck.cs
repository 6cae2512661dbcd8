using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class RelationCheck
{
    public static CheckOutcome Evaluate(Check.Relation check, Rule rule, JobFrame frame, UnitFrame? unit) =>
        Told.InProgress("not judged yet");
}
