namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>How near hands are to live energy where a duty is not kept, the nearest first.</summary>
public enum HandsDanger
{
    /// <summary>The machine is live, or runs, while somebody is at it.</summary>
    MachineLive,

    /// <summary>Somebody is at the machine and holds nothing that keeps it off.</summary>
    NothingHeld,

    /// <summary>A source is not switched off, or not held off.</summary>
    NotSwitchedOff,

    /// <summary>A source was not shown to be dead.</summary>
    NotProvenDead,

    /// <summary>What kept a source off was taken away by somebody else.</summary>
    DeviceTakenOff,

    /// <summary>No hands are in danger by this alone.</summary>
    None,
}
