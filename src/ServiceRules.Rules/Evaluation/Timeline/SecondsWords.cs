using System.Globalization;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>A short time in words.</summary>
internal static class SecondsWords
{
    /// <summary>In seconds, to a tenth: <c>1 second</c>, <c>2.5 seconds</c>.</summary>
    public static string Of(TimeSpan time) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{time.TotalSeconds:0.#} {(time.TotalSeconds == 1 ? "second" : "seconds")}"
        );
}
