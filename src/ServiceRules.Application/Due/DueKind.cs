namespace ServiceRules.Application.Due;

/// <summary>What falls due. The numbers are kept and stay.</summary>
public enum DueKind
{
    /// <summary>The calibration of a gauge runs out.</summary>
    Calibration = 0,

    /// <summary>The training runs out that an authorisation rests on.</summary>
    Training = 1,

    /// <summary>The periodic inspection of a written procedure.</summary>
    Inspection = 2,

    /// <summary>What an inspection of a procedure found is to be put right.</summary>
    InspectionFinding = 3,

    /// <summary>A wearing size comes to its limit, or is past it.</summary>
    Wear = 4,

    /// <summary>The relief behind the lands is to be ground.</summary>
    Relief = 5,
}
