using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Json.Shapes;

namespace ServiceRules.Formats.Vocabulary;

/// <summary>The small values that every document is made of: identities, days, times, quantities, words for people.</summary>
public static class Terms
{
    private const string LengthPattern = @"-?[0-9][0-9./ ]* (mm|\u00B5m|\u03BCm|um|in|thou)";
    private const string NumberPattern = @"-?[0-9]+(\.[0-9]+)?";
    private const int FirstYear = 1990;
    private const int LastYear = 2200;

    /// <summary>The text of an identity.</summary>
    public static JsonShape<string> Identity { get; } =
        Shape.Text(
            1,
            64,
            @"[A-Za-z0-9][A-Za-z0-9._\-]*",
            "1 to 64 letters, digits, dots, hyphens and underscores, beginning with a letter or digit"
        );

    /// <summary>A title or a name for people.</summary>
    public static JsonShape<string> Title { get; } = Shape.Line(FormatLimits.Title);

    /// <summary>A sentence or two on one line.</summary>
    public static JsonShape<string> Sentence { get; } = Shape.Line(FormatLimits.Sentence);

    /// <summary>A reason, a complaint or a note, on any number of lines.</summary>
    public static JsonShape<string> Note { get; } = Shape.Prose(FormatLimits.Note);

    /// <summary>A length with its unit; it keeps its printed digits.</summary>
    public static JsonShape<PrintedLength> Length { get; } =
        Shape.Read(
            PrintedLength.Parse,
            length => length.ToString(),
            LengthPattern,
            PrintedLength.AcceptedForms,
            "0.050 mm",
            "25 µm",
            "0.040 in",
            "2 thou",
            "1 1/16 in"
        );

    /// <summary>A length of nothing or more.</summary>
    public static JsonShape<PrintedLength> Distance { get; } =
        Length.AsParsed(
            length =>
                Kept(
                    length,
                    length.Value >= Domain.Quantities.Length.Zero,
                    "is negative",
                    "a length of nothing or more"
                ),
            length => length
        );

    /// <summary>A length of more than nothing.</summary>
    public static JsonShape<PrintedLength> Size { get; } =
        Length.AsParsed(
            length =>
                Kept(
                    length,
                    length.Value > Domain.Quantities.Length.Zero,
                    "is not a size",
                    "a length of more than nothing"
                ),
            length => length
        );

    /// <summary>
    /// The thickness of a feeler: beyond an inch it is a block or a slip of the pen (common practice, no source).
    /// </summary>
    public static JsonShape<PrintedLength> Feeler { get; } =
        Size.AsParsed(
            length =>
                Kept(
                    length,
                    length.Value <= Domain.Quantities.Length.FromInches(1m),
                    "is no thickness of a feeler",
                    "a thickness of more than nothing, at most `1 in` or `25.4 mm`"
                ),
            length => length
        );

    /// <summary>An exact length in millimetres, as results state it.</summary>
    public static JsonShape<Length> ExactLength { get; } =
        Shape.Read(
            ReadExact,
            length => length.ToString(),
            NumberPattern + " mm",
            "an exact length in mm such as `0.0254 mm`"
        );

    public static JsonShape<Angle> Angle { get; } =
        Shape.Read(
            Domain.Quantities.Angle.Parse,
            angle => angle.ToString(),
            NumberPattern + " deg",
            Domain.Quantities.Angle.AcceptedForm,
            "6.5 deg"
        );

    public static JsonShape<OperatingHours> Hours { get; } =
        Shape.Read(
            OperatingHours.Parse,
            hours => hours.ToString(),
            NumberPattern + " h",
            OperatingHours.AcceptedForm,
            "412.5 h"
        );

    public static JsonShape<Speed> Speed { get; } =
        Shape.Read(
            Domain.Quantities.Speed.Parse,
            speed => speed.ToString(),
            NumberPattern + " (km/h|mph|m/min)",
            Domain.Quantities.Speed.AcceptedForms,
            "6 km/h"
        );

    public static JsonShape<RotationRate> RotationRate { get; } =
        Shape.Read(
            Domain.Quantities.RotationRate.Parse,
            rate => rate.ToString(),
            NumberPattern + " rev/min",
            Domain.Quantities.RotationRate.AcceptedForm,
            "2200 rev/min"
        );

    public static JsonShape<WearRate> WearRate { get; } =
        Shape.Read(
            Domain.Quantities.WearRate.Parse,
            rate => rate.ToString(),
            NumberPattern + " (mm|in)/h",
            Domain.Quantities.WearRate.AcceptedForms,
            "0.0034 mm/h"
        );

    public static JsonShape<Pressure> Pressure { get; } =
        Shape.Read(
            Domain.Quantities.Pressure.Parse,
            pressure => pressure.ToString(),
            NumberPattern + " (bar|kPa|psi)",
            Domain.Quantities.Pressure.AcceptedForms,
            "0 bar"
        );

    public static JsonShape<Temperature> Temperature { get; } =
        Shape.Read(
            Domain.Quantities.Temperature.Parse,
            temperature => temperature.ToString(),
            NumberPattern + " deg[CF]",
            Domain.Quantities.Temperature.AcceptedForms,
            "24 degC",
            "75 degF"
        );

    /// <summary>A level of confidence as certificates print it.</summary>
    public static JsonShape<CoverageLevel> Level { get; } =
        Shape.Read(
            CoverageLevel.Parse,
            level => level.Name,
            @"[0-9]{2}(\.[0-9]{2})? %",
            CoverageLevel.AcceptedForms,
            "95 %"
        );

    public static JsonShape<RecordedTime> Time { get; } =
        Shape.Read(
            RecordedTime.Parse,
            time => time.Text,
            @"[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt][0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]+)?([Zz]|[+\-][0-9]{2}:[0-9]{2})?",
            RecordedTime.AcceptedForms,
            "2026-04-13T08:04:00+01:00"
        );

    public static JsonShape<DateOnly> Day { get; } =
        Shape.Read(
            ReadDay,
            day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            "[0-9]{4}-[0-9]{2}-[0-9]{2}",
            "a day of the years 1990 to 2200 such as `2026-04-13`"
        );

    /// <summary>SHA-256 in lower-case hexadecimal digits.</summary>
    public static JsonShape<string> Sha256 { get; } =
        Shape.Text(64, 64, "[0-9a-f]{64}", "64 lower-case hexadecimal digits");

    /// <summary>A digest that names its algorithm.</summary>
    public static JsonShape<string> Digest { get; } =
        Shape.Text(71, 71, "sha256:[0-9a-f]{64}", "`sha256:` and 64 lower-case hexadecimal digits");

    /// <summary>The identity of a <typeparamref name="T"/>.</summary>
    public static JsonShape<Id<T>> Id<T>() => Identity.As(text => new Id<T>(text), id => id.Text);

    /// <summary>The identity of a <typeparamref name="T"/> that the document lists here.</summary>
    public static JsonShape<Id<T>> NewId<T>(string kind) => Id<T>().Declares(kind, id => id.Text);

    /// <summary>The identity of a <typeparamref name="T"/> that the document lists somewhere.</summary>
    public static JsonShape<Id<T>> KnownId<T>(string kind) => Id<T>().RefersTo(kind, id => id.Text);

    /// <summary>Keeps a value that is as it must be, and refuses it with words otherwise.</summary>
    public static Parsed<T> Kept<T>(T value, bool isRight, string problem, string accepted)
        where T : notnull =>
        isRight
            ? Parsed<T>.Of(value)
            : Parsed<T>.Refused(new ParseFailure(value.ToString() ?? "", accepted) { Problem = problem });

    private static Parsed<DateOnly> ReadDay(string text) =>
        DateOnly.TryParseExact(
            text,
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out DateOnly day
        ) && day.Year is >= FirstYear and <= LastYear
            ? Parsed<DateOnly>.Of(day)
            : Parsed<DateOnly>.Refused(
                new ParseFailure(text, "a day of the years 1990 to 2200 such as `2026-04-13`")
                {
                    Problem = "this day is in no calendar",
                }
            );

    private static Parsed<Length> ReadExact(string text) =>
        decimal.TryParse(
            text.AsSpan(0, text.Length - " mm".Length),
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out decimal millimetres
        )
            ? Parsed<Length>.Of(Domain.Quantities.Length.FromMillimetres(millimetres))
            : Parsed<Length>.Refused(
                new ParseFailure(text, "at most 28 digits")
                {
                    Problem = "this has more digits than a length keeps",
                }
            );
}
