namespace ServiceRules.Engine.Inference;

/// <summary>What follows from one fact: further facts, by a pure function of it.</summary>
/// <typeparam name="TFact">The kind of fact it follows from.</typeparam>
internal interface IConsequence<in TFact>
{
    IEnumerable<Fact> Of(TFact fact);
}

/// <summary>What follows from two facts together: further facts, by a pure function of both.</summary>
/// <typeparam name="TLeft">The kind of the first fact.</typeparam>
/// <typeparam name="TRight">The kind of the second fact.</typeparam>
internal interface IConsequence<in TLeft, in TRight>
{
    IEnumerable<Fact> Of(TLeft left, TRight right);
}
