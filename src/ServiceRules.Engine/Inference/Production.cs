using System.Linq.Expressions;
using NRules.RuleModel;
using NRules.RuleModel.Builders;

namespace ServiceRules.Engine.Inference;

/// <summary>
/// One rule of the network: when these facts are known together, those follow.
/// </summary>
/// <remarks>
/// Left-hand sides are always a call on one of our own constant objects. The network decides by comparing
/// expression trees whether two rules may share a condition, and that comparison forgets parts of richer trees;
/// with calls on constants it comes down to our own equality. Productions only ever add facts, and there is no
/// negation, so the set of facts at rest does not depend on the order of firing.
/// </remarks>
internal sealed class Production
{
    private const string First = "first";
    private const string Second = "second";

    private Production(IRuleDefinition definition) => Definition = definition;

    internal IRuleDefinition Definition { get; }

    public string Name => Definition.Name;

    public static Production When<TFact>(string name, ICondition<TFact> condition, IConsequence<TFact> then)
        where TFact : Fact
    {
        var builder = Begin(name);
        var pattern = builder.LeftHandSide().Pattern(typeof(TFact), First);
        var fact = pattern.Declaration.ToParameterExpression();
        pattern.Condition(Ask(condition, typeof(ICondition<TFact>), fact));
        Conclude(builder, new Derivation<TFact>(then), fact);
        return new Production(builder.Build());
    }

    public static Production When<TLeft, TRight>(
        string name,
        IRelation<TLeft, TRight> relation,
        IConsequence<TLeft, TRight> then
    )
        where TLeft : Fact
        where TRight : Fact
    {
        var builder = Begin(name);
        var left = builder.LeftHandSide().Pattern(typeof(TLeft), First).Declaration.ToParameterExpression();
        var pattern = builder.LeftHandSide().Pattern(typeof(TRight), Second);
        var right = pattern.Declaration.ToParameterExpression();
        pattern.Condition(Ask(relation, typeof(IRelation<TLeft, TRight>), left, right));
        Conclude(builder, new Derivation<TLeft, TRight>(then), left, right);
        return new Production(builder.Build());
    }

    private static RuleBuilder Begin(string name)
    {
        var builder = new RuleBuilder();
        builder.Name(name);
        builder.Repeatability(RuleRepeatability.NonRepeatable);
        return builder;
    }

    private static LambdaExpression Ask(object question, Type form, params ParameterExpression[] facts) =>
        Expression.Lambda(
            Expression.Call(Expression.Constant(question, form), form.GetMethod("Holds")!, facts),
            facts
        );

    private static void Conclude(RuleBuilder builder, object derivation, params ParameterExpression[] facts)
    {
        var context = Expression.Parameter(typeof(IContext), "context");
        ParameterExpression[] all = [context, .. facts];
        builder
            .RightHandSide()
            .Action(
                Expression.Lambda(
                    Expression.Call(
                        Expression.Constant(derivation),
                        derivation.GetType().GetMethod("Into")!,
                        all
                    ),
                    all
                )
            );
    }

    private sealed class Derivation<TFact>(IConsequence<TFact> then)
    {
        public void Into(IContext context, TFact fact) => Add(context, then.Of(fact));
    }

    private sealed class Derivation<TLeft, TRight>(IConsequence<TLeft, TRight> then)
    {
        public void Into(IContext context, TLeft left, TRight right) => Add(context, then.Of(left, right));
    }

    private static void Add(IContext context, IEnumerable<Fact> facts)
    {
        foreach (var fact in facts)
        {
            context.TryInsert(fact);
        }
    }
}
