using System.Linq.Expressions;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Tests.Inference;

public class ProductionTests
{
    private static readonly ExpressionType[] Allowed =
    [
        ExpressionType.Lambda,
        ExpressionType.Call,
        ExpressionType.Constant,
        ExpressionType.Parameter,
    ];

    [Fact]
    public void When_OneFact_ConditionIsACallOnAConstant() =>
        AssertShape(Production.When("even", new DivisibleBy(2), new Put("even")), conditions: 1);

    [Fact]
    public void When_TwoFacts_RelationIsACallOnAConstant() =>
        AssertShape(Production.When("next", new FollowsBy(1), new PutPair("next")), conditions: 1);

    private static void AssertShape(Production production, int conditions)
    {
        var nodes = LambdaShape.OfLeftHandSide(production.Definition);

        Assert.Equal(conditions, nodes.Count(n => n == ExpressionType.Lambda));
        Assert.Equal(conditions, nodes.Count(n => n == ExpressionType.Call));
        Assert.All(nodes, n => Assert.Contains(n, Allowed));
    }
}
