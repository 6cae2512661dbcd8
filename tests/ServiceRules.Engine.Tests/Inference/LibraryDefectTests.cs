using System.Collections.Concurrent;
using System.Linq.Expressions;
using NRules;
using NRules.RuleModel;
using NRules.RuleModel.Builders;

namespace ServiceRules.Engine.Tests.Inference;

/// <summary>
/// Defects of NRules 1.0.4 that the engine is built around. A test here that fails after an upgrade is news: read
/// docs/decisions/0002-how-nrules-is-used.md and decide again.
/// </summary>
public class LibraryDefectTests
{
    public sealed record Pair(object A, object B);

    public sealed record Point(int X, int Y);

    public sealed record Bag(int Id, IReadOnlyList<Item> Items);

    public sealed record Item(int Id);

    public sealed class Fired : ConcurrentBag<string>;

    [Theory]
    [InlineData(false, "A,B")]
    [InlineData(true, "")]
    public void Compile_TypeTestsOfDifferentMembers_AreSharedWrongly(bool reversed, string firedTogether)
    {
        var rules = new[] { TypeTest(nameof(Pair.A)), TypeTest(nameof(Pair.B)) };
        var pair = new Pair("text", 5);

        Assert.Equal("A", RunPair([rules[0]], pair));
        Assert.Equal("", RunPair([rules[1]], pair));
        Assert.Equal(firedTogether, RunPair(reversed ? [.. rules.Reverse()] : rules, pair));
    }

    [Fact]
    public void Compile_MembersOfANewObject_AreSharedWrongly()
    {
        var rules = new[] { NewMember(nameof(Point.X)), NewMember(nameof(Point.Y)) };
        var pair = new Pair(1, 100);

        Assert.Equal("Y", RunPair([rules[1]], pair));
        Assert.Equal("", RunPair(rules, pair));
    }

    [Fact]
    public void Compile_CancelledToken_ReturnsARuleSetWithRulesMissing()
    {
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        var rules = new[] { TypeTest(nameof(Pair.A)), AnyPair("one"), AnyPair("two"), AnyPair("three") };

        var factory = new RuleCompiler().Compile(rules, cancelled.Token);
        var fired = new Fired();
        var session = factory.CreateSession();
        session.InsertAll([fired, new Pair("text", 5)]);
        session.Fire(100);

        Assert.True(fired.Count < 4, $"{fired.Count} of 4 rules fired");
    }

    /// <summary>
    /// The comparers that flattening looks up live in an unlocked dictionary that all sessions share; this pins the
    /// dictionary rather than the race, which no test can be sure to provoke.
    /// </summary>
    [Fact]
    public void FactIdentityComparer_KeepsItsComparersInAnUnlockedDictionary()
    {
        var type =
            typeof(RuleCompiler).Assembly.GetType("NRules.RuleModel.FactIdentityComparer")
            ?? typeof(RuleCompiler).Assembly.GetTypes().Single(t => t.Name == "FactIdentityComparer");
        var fields = type.GetFields(
            System.Reflection.BindingFlags.Instance | System.Reflection.BindingFlags.NonPublic
        );

        Assert.Contains(
            fields,
            f => f.FieldType.IsGenericType && f.FieldType.GetGenericTypeDefinition() == typeof(Dictionary<,>)
        );
        Assert.DoesNotContain(
            fields,
            f =>
                f.FieldType.IsGenericType
                && f.FieldType.GetGenericTypeDefinition() == typeof(ConcurrentDictionary<,>)
        );
    }

    private static IRuleDefinition TypeTest(string member) =>
        PairRule(member, pair => Expression.TypeIs(Expression.Property(pair, member), typeof(string)));

    private static IRuleDefinition NewMember(string member) =>
        PairRule(
            member,
            pair =>
                Expression.GreaterThan(
                    Expression.Property(
                        Expression.New(
                            typeof(Point).GetConstructor([typeof(int), typeof(int)])!,
                            Expression.Convert(Expression.Property(pair, nameof(Pair.A)), typeof(int)),
                            Expression.Convert(Expression.Property(pair, nameof(Pair.B)), typeof(int))
                        ),
                        member
                    ),
                    Expression.Constant(10)
                )
        );

    private static IRuleDefinition AnyPair(string name) => PairRule(name, _ => Expression.Constant(true));

    private static IRuleDefinition PairRule(string name, Func<ParameterExpression, Expression> condition)
    {
        var builder = new RuleBuilder();
        builder.Name(name);
        var pattern = builder.LeftHandSide().Pattern(typeof(Pair), "pair");
        var pair = pattern.Declaration.ToParameterExpression();
        pattern.Condition(Expression.Lambda(condition(pair), pair));
        var fired = builder
            .LeftHandSide()
            .Pattern(typeof(Fired), "fired")
            .Declaration.ToParameterExpression();
        var context = Expression.Parameter(typeof(IContext), "context");
        builder
            .RightHandSide()
            .Action(
                Expression.Lambda(
                    Expression.Call(fired, nameof(Fired.Add), null, Expression.Constant(name)),
                    context,
                    fired
                )
            );
        return builder.Build();
    }

    private static string RunPair(IEnumerable<IRuleDefinition> rules, Pair pair)
    {
        var fired = new Fired();
        var session = new RuleCompiler().Compile(rules).CreateSession();
        session.InsertAll([fired, pair]);
        session.Fire(100);
        return string.Join(',', fired.Order(StringComparer.Ordinal));
    }
}
