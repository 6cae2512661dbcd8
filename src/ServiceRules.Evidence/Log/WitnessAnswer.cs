namespace ServiceRules.Evidence.Log;

/// <summary>What a witness says to a checkpoint.</summary>
public abstract record WitnessAnswer
{
    private WitnessAnswer() { }

    /// <summary>To be cosigned, and stored before the cosignature is given to anybody.</summary>
    public sealed record Accepted : WitnessAnswer;

    /// <summary>Not to be cosigned.</summary>
    /// <param name="Refusal">Which answer of the protocol it is.</param>
    /// <param name="Told">What was found and what would be accepted, in words for a person.</param>
    public sealed record Refused(WitnessRefusal Refusal, string Told) : WitnessAnswer;
}
