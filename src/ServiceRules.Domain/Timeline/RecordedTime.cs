using System.Globalization;
using System.Text.RegularExpressions;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// A time as it was recorded: with an offset from UTC, or without one, which is a kind of its own and is
/// never given an offset silently. The grammar is that of RFC 3339 (2002) section 5.6, the offset being
/// optional, within the years 1990 to 2200 and with at most seven decimals of a second. Two recorded times
/// are equal when they were written alike; moments compare by <see cref="Instant.Moment"/>.
/// </summary>
public abstract partial record RecordedTime
{
    /// <summary>The forms that are read, in words for a message.</summary>
    public const string AcceptedForms =
        "a date and time of the years 1990 to 2200 such as `2026-03-01T12:00:00Z` or `2026-03-01T13:00:00+01:00`, or without offset `2026-03-01T13:00:00`";

    private const int LongestText = 40;
    private const int FirstYear = 1990;
    private const int LastYear = 2200;
    private const int MostDecimals = 7;

    private RecordedTime(string text, ClockFace face)
    {
        Text = text;
        Face = face;
    }

    /// <summary>The time exactly as it was written.</summary>
    public string Text { get; }

    /// <summary>Whether it was written with second 60.</summary>
    public bool IsLeapSecond => Face.IsLeapSecond;

    /// <summary>What the clock showed.</summary>
    internal ClockFace Face { get; }

    /// <summary>Reads a time with or without offset.</summary>
    /// <param name="text">Date, <c>T</c>, time with seconds, then <c>Z</c>, an offset such as <c>+01:00</c>, or nothing.</param>
    public static Parsed<RecordedTime> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > LongestText)
        {
            return Refused($"is longer than {LongestText} characters", text);
        }

        Match match = Shape.Match(text);
        if (!match.Success)
        {
            return Refused("is not a date, T and a time with seconds", text);
        }

        if (!TryFace(match, out ClockFace face, out string problem))
        {
            return Refused(problem, text);
        }

        return match.Groups["offset"].Success
            ? ReadInstant(text, face, match)
            : Parsed<RecordedTime>.Of(new LocalTime(text, face));
    }

    /// <summary>The time exactly as it was written.</summary>
    public sealed override string ToString() => Text;

    private static Parsed<RecordedTime> ReadInstant(string text, ClockFace face, Match match)
    {
        int hours = Number(match.Groups["offsetHour"]);
        int minutes = Number(match.Groups["offsetMinute"]);
        if (hours > 23 || minutes > 59)
        {
            return Refused(
                "has an offset of a day or more, or of more than 59 minutes beside the hours",
                text
            );
        }

        int offset = match.Groups["sign"].ValueSpan is "-" ? -(hours * 60) - minutes : (hours * 60) + minutes;
        bool isZulu = !match.Groups["sign"].Success;
        bool isUnknown = isZulu || (offset == 0 && match.Groups["sign"].ValueSpan is "-");
        return Moment.Of(face, offset) is { } moment
            ? Parsed<RecordedTime>.Of(new Instant(text, face, moment, isUnknown ? null : offset))
            : Refused("has second 60 elsewhere than at the end of a month in UTC", text);
    }

    private static bool TryFace(Match match, out ClockFace face, out string problem)
    {
        face = default;
        int year = Number(match.Groups["year"]);
        int month = Number(match.Groups["month"]);
        int day = Number(match.Groups["day"]);
        int hour = Number(match.Groups["hour"]);
        int minute = Number(match.Groups["minute"]);
        int second = Number(match.Groups["second"]);
        string decimals = match.Groups["decimals"].Value;
        problem = string.Empty;
        if (year is < FirstYear or > LastYear)
        {
            problem = $"lies outside the years {FirstYear} to {LastYear}";
        }
        else if (month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month))
        {
            problem = "has a date that is in no calendar";
        }
        else if (hour > 23 || minute > 59 || second > 60)
        {
            problem = "has a time of day that no clock shows";
        }
        else if (decimals.Length > MostDecimals)
        {
            problem = $"has more than {MostDecimals} decimals of a second";
        }
        else
        {
            bool isLeapSecond = second == 60;
            DateTime clock = new(
                year,
                month,
                day,
                hour,
                minute,
                isLeapSecond ? 59 : second,
                DateTimeKind.Unspecified
            );
            face = new ClockFace(clock.AddTicks(Ticks(decimals)), isLeapSecond);
        }

        return problem.Length == 0;
    }

    private static long Ticks(string decimals) =>
        long.Parse(decimals.PadRight(MostDecimals, '0'), NumberStyles.None, CultureInfo.InvariantCulture);

    private static int Number(Group group) =>
        group.Success ? int.Parse(group.ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture) : 0;

    private static Parsed<RecordedTime> Refused(string problem, string text) =>
        Parsed<RecordedTime>.Refused(ParseFailure.Because(problem, text, AcceptedForms));

    [GeneratedRegex(
        @"\A(?<year>[0-9]{4})-(?<month>[0-9]{2})-(?<day>[0-9]{2})[Tt](?<hour>[0-9]{2}):(?<minute>[0-9]{2}):(?<second>[0-9]{2})(\.(?<decimals>[0-9]+))?(?<offset>[Zz]|(?<sign>[+-])(?<offsetHour>[0-9]{2}):(?<offsetMinute>[0-9]{2}))?\z",
        RegexOptions.ExplicitCapture
    )]
    private static partial Regex Shape { get; }

    /// <summary>A time written with its offset, which is a moment wherever it is read.</summary>
    public sealed record Instant : RecordedTime
    {
        internal Instant(string text, ClockFace face, Moment moment, int? localOffsetMinutes)
            : base(text, face)
        {
            Moment = moment;
            LocalOffsetMinutes = localOffsetMinutes;
        }

        /// <summary>The moment it names, to be compared with others.</summary>
        public Moment Moment { get; }

        /// <summary>
        /// How far the clock was ahead of UTC; none for <c>Z</c> and <c>-00:00</c>, which tell the moment but
        /// not the local clock (RFC 3339 section 4.3; RFC 9557, 2024, section 2).
        /// </summary>
        public int? LocalOffsetMinutes { get; }
    }

    /// <summary>
    /// A time written without offset: what a wall clock showed. Only a <see cref="SiteZone"/> can say which
    /// moment, if any, that was.
    /// </summary>
    public sealed record LocalTime : RecordedTime
    {
        internal LocalTime(string text, ClockFace face)
            : base(text, face) { }
    }
}
