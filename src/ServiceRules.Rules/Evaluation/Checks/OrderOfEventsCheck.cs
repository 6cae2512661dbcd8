using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

internal static class OrderOfEventsCheck
{
    public static CheckOutcome Evaluate(
        Check.OrderOfEvents check,
        Rule rule,
        JobFrame frame,
        UnitFrame? unit
    ) => Told.InProgress("not judged yet");
}
