namespace ServiceRules.Rules.Model;

/// <summary>At which places a limit must hold.</summary>
public enum CheckedPlaces
{
    /// <summary>At every station read and, extrapolated, at both blade ends.</summary>
    StationsAndEnds,

    /// <summary>At the stations read only.</summary>
    Stations,
}
