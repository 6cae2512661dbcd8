namespace ServiceRules.Rules.Model;

/// <summary>What may run out.</summary>
public enum RecencyOf
{
    /// <summary>Calibration, zero check or inspection of the instruments used.</summary>
    Instruments,

    /// <summary>Authorisation and training of the people with hands in.</summary>
    Training,

    /// <summary>Periodic inspection of the machine's procedure.</summary>
    ProcedureInspection,
}
