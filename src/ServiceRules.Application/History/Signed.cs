using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Json.Shapes;

namespace ServiceRules.Application.History;

/// <summary>Hours and rates of results, which unlike those that people state may be below zero.</summary>
internal static class Signed
{
    private const string Number = "-?(0|[1-9][0-9]*)(\\.[0-9]+)?";

    public static JsonShape<RunningTime> Hours { get; } =
        Shape.Read(
            text => Read(text, RunningTime.Parse, time => RunningTime.Zero - time),
            time => time.ToString(),
            Number + " h",
            "hours such as `18.5 h` or `-3 h`"
        );

    public static JsonShape<WearRate> Rate { get; } =
        Shape.Read(
            text =>
                Read(text, WearRate.Parse, rate => WearRate.FromMillimetresPerHour(-rate.MillimetresPerHour)),
            rate => rate.ToString(),
            Number + " mm/h",
            "a rate such as `0.0034 mm/h` or `-0.0034 mm/h`"
        );

    private static Parsed<T> Read<T>(string text, Func<string, Parsed<T>> read, Func<T, T> negated)
        where T : notnull
    {
        if (!text.StartsWith('-'))
        {
            return read(text);
        }

        return read(text[1..]).TryGet(out var value, out var failure)
            ? Parsed<T>.Of(negated(value))
            : Parsed<T>.Refused(failure);
    }
}
