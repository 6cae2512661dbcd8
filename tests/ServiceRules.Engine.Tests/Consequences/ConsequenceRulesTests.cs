using System.Linq.Expressions;
using ServiceRules.Engine.Consequences;
using ServiceRules.Engine.Inference;
using ServiceRules.Engine.Planning;
using ServiceRules.Engine.Tests.Inference;

namespace ServiceRules.Engine.Tests.Consequences;

public class ConsequenceRulesTests
{
    /// <summary>Facts that come from outside and carry an identity of their own.</summary>
    private static readonly Type[] Given = [typeof(FindingFact), typeof(SubjectProfile)];

    [Fact]
    public void All_LeftHandSides_HaveOnlyCallsOnConstants()
    {
        ExpressionType[] allowed =
        [
            ExpressionType.Lambda,
            ExpressionType.Call,
            ExpressionType.Constant,
            ExpressionType.Parameter,
        ];

        Assert.All(
            ConsequenceRules.All,
            production =>
            {
                var nodes = LambdaShape.OfLeftHandSide(production.Definition);
                Assert.Contains(ExpressionType.Call, nodes);
                Assert.All(nodes, node => Assert.Contains(node, allowed));
            }
        );
    }

    [Fact]
    public void DerivedFacts_Members_CompareByValue()
    {
        var derived = typeof(Fact)
            .Assembly.GetTypes()
            .Where(t => t.IsSubclassOf(typeof(Fact)))
            .Except(Given)
            .ToList();

        Assert.NotEmpty(derived);
        Assert.All(
            derived,
            type =>
            {
                Assert.True(type.IsSealed, type.Name);
                Assert.All(
                    type.GetProperties().Where(p => p.Name != "EqualityContract"),
                    p =>
                        Assert.True(
                            p.PropertyType == typeof(string)
                                || p.PropertyType.IsEnum
                                || p.PropertyType.IsPrimitive,
                            $"{type.Name}.{p.Name}"
                        )
                );
            }
        );
    }

    [Fact]
    public void Conditions_OfAllProductions_AreSealedAndValueEqual()
    {
        var questions = typeof(Fact)
            .Assembly.GetTypes()
            .Where(t =>
                t.GetInterfaces()
                    .Any(i =>
                        i.IsGenericType
                        && (
                            i.GetGenericTypeDefinition() == typeof(ICondition<>)
                            || i.GetGenericTypeDefinition() == typeof(IRelation<,>)
                        )
                    )
            )
            .ToList();

        Assert.NotEmpty(questions);
        Assert.All(
            questions,
            t =>
            {
                Assert.True(t.IsSealed, t.Name);
                Assert.Contains(typeof(IEquatable<>).MakeGenericType(t), t.GetInterfaces());
            }
        );
    }
}
