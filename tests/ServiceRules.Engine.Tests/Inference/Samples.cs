using System.Globalization;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Tests.Inference;

/// <summary>A small world with nothing of the trade in it: numbers, and labels that follow from numbers.</summary>
internal sealed record Number(int Value) : Fact;

internal sealed record Label(string Text) : Fact;

internal sealed record DivisibleBy(int Divisor) : ICondition<Number>
{
    public bool Holds(Number fact) => fact.Value % Divisor == 0;
}

internal sealed record AtLeast(int Least) : ICondition<Number>
{
    public bool Holds(Number fact) => fact.Value >= Least;
}

internal sealed record LabelIs(string Text) : ICondition<Label>
{
    public bool Holds(Label fact) => fact.Text == Text;
}

internal sealed record Throwing : ICondition<Number>
{
    public bool Holds(Number fact) =>
        throw new InvalidOperationException(
            string.Create(CultureInfo.InvariantCulture, $"cannot judge {fact.Value}")
        );
}

internal sealed record FollowsBy(int Step) : IRelation<Number, Number>
{
    public bool Holds(Number left, Number right) => right.Value == left.Value + Step;
}

internal sealed record Put(string Text) : IConsequence<Number>
{
    public IEnumerable<Fact> Of(Number fact) =>
        [new Label(string.Create(CultureInfo.InvariantCulture, $"{Text} {fact.Value}"))];
}

internal sealed record PutAgain(string Text) : IConsequence<Label>
{
    public IEnumerable<Fact> Of(Label fact) => [new Label(Text)];
}

internal sealed record PutPair(string Text) : IConsequence<Number, Number>
{
    public IEnumerable<Fact> Of(Number left, Number right) =>
        [new Label(string.Create(CultureInfo.InvariantCulture, $"{Text} {left.Value} {right.Value}"))];
}

internal sealed record CountOn : IConsequence<Number>
{
    public IEnumerable<Fact> Of(Number fact) => [new Number(fact.Value + 1)];
}

internal sealed record ThrowingConsequence : IConsequence<Number>
{
    public IEnumerable<Fact> Of(Number fact) => throw new InvalidOperationException("cannot conclude");
}

internal static class Samples
{
    public static string[] Sorted(IEnumerable<Fact> facts) =>
        [.. facts.Select(f => f.ToString()).Order(StringComparer.Ordinal)];

    public static string[] Labels(IEnumerable<Fact> facts) =>
        [.. facts.OfType<Label>().Select(f => f.Text).Order(StringComparer.Ordinal)];
}
