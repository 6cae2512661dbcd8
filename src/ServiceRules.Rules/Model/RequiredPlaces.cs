namespace ServiceRules.Rules.Model;

/// <summary>At which places.</summary>
public enum RequiredPlaces
{
    /// <summary>Anywhere, or over the whole width.</summary>
    Any,

    /// <summary>At the sheet's left and right gauging stations.</summary>
    BothStations,
}
