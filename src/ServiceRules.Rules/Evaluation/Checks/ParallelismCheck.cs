using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class ParallelismCheck
{
    public static CheckOutcome Evaluate(
        Check.Parallelism check,
        Rule rule,
        JobFrame frame,
        UnitFrame? unit
    ) => Told.InProgress("not judged yet");
}
