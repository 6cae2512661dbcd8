namespace ServiceRules.Engine.Inference;

/// <summary>A question about two facts together; the same promises as <see cref="ICondition{TFact}"/>.</summary>
/// <typeparam name="TLeft">The kind of the first fact.</typeparam>
/// <typeparam name="TRight">The kind of the second fact.</typeparam>
internal interface IRelation<in TLeft, in TRight>
{
    bool Holds(TLeft left, TRight right);
}
