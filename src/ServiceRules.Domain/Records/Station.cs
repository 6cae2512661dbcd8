using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>Where along the width: a distance from the left end, or one of the sheet's gauging stations by name.</summary>
public abstract record Station
{
    private Station() { }

    /// <summary>Distance from the left end of the bedknife.</summary>
    public sealed record AtDistance(PrintedLength FromLeft) : Station;

    /// <summary>The sheet's left, middle or right gauging station of the quantity.</summary>
    public sealed record Named(StationName Name) : Station;
}
