namespace ServiceRules.Domain.Records;

/// <summary>The gauging stations that a limit sheet places.</summary>
public enum StationName
{
    /// <summary>Left gauging station.</summary>
    Left,

    /// <summary>Mid-width.</summary>
    Middle,

    /// <summary>Right gauging station.</summary>
    Right,
}
