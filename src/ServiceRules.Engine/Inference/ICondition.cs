namespace ServiceRules.Engine.Inference;

/// <summary>
/// A question about one fact. Implementations are immutable, pure and never throw for a fact they cannot judge:
/// what cannot be decided is a verdict further down, not a condition that fails to match.
/// Two conditions that are equal must answer alike for every fact, since the network may ask only one of them.
/// </summary>
/// <typeparam name="TFact">The kind of fact that is asked about.</typeparam>
internal interface ICondition<in TFact>
{
    bool Holds(TFact fact);
}
