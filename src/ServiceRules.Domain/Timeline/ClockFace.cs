using System.Globalization;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// What a clock shows, wherever it hangs. Second 60 is held as second 59 with a mark, since no calendar type
/// of the platform has it.
/// </summary>
internal readonly record struct ClockFace(DateTime Clock, bool IsLeapSecond)
{
    /// <summary>Date, <c>T</c>, time, and as many decimals of a second as are not zero.</summary>
    public override string ToString()
    {
        string shown = Clock.ToString("yyyy-MM-ddTHH:mm:ss.FFFFFFF", CultureInfo.InvariantCulture);
        return IsLeapSecond ? $"{shown[..17]}60{shown[19..]}" : shown;
    }
}
