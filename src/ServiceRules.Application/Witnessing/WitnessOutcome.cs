using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Witnessing;

/// <summary>What became of a checkpoint that was brought to a witness.</summary>
public abstract record WitnessOutcome
{
    private WitnessOutcome() { }

    /// <summary>It is stored and cosigned.</summary>
    /// <param name="Checkpoint">As it was brought, with the cosignature below it.</param>
    /// <param name="Earlier">The head that was cosigned before; null for the first of its log.</param>
    public sealed record Cosigned(SignedCheckpoint Checkpoint, Checkpoint? Earlier) : WitnessOutcome;

    /// <summary>The witness does not cosign it.</summary>
    /// <param name="Refusal">Which answer of the protocol it is.</param>
    /// <param name="Told">What was found and what would be accepted.</param>
    public sealed record Refused(WitnessRefusal Refusal, string Told) : WitnessOutcome;

    /// <summary>The witness cannot decide: its folder, its clock or what was given with the checkpoint is at fault.</summary>
    /// <param name="Why">What was found and what would be accepted.</param>
    public sealed record Unable(string Why) : WitnessOutcome;
}
