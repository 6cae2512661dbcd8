using System.Collections.Immutable;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Imports;

/// <summary>Values and lists of a mapping.</summary>
internal static class MappedShapes
{
    private const string ToForms =
        "names of members, each after a slash, such as `/machine/id`; items of lists come from `lists`";

    private static readonly JsonShape<string> Heading = Shape.Line(FormatLimits.Title);

    private static readonly JsonShape<string> Place = Shape.Text(
        2,
        120,
        "(/[A-Za-z][A-Za-z0-9]*)+",
        ToForms,
        "/id",
        "/machine/id"
    );

    private static readonly ObjectShape<RowCondition> ConditionObject = Shape.Object<RowCondition>(
        "row-condition",
        "Which rows say something.",
        o =>
        {
            var column = o.Required("column", Heading, "the heading of a column", c => c.Column);
            var words = o.Items(
                "is",
                Heading,
                FormatLimits.Words,
                "the texts of which one stands there; left out: anything stands there",
                c => c.Is
            );
            return v => new RowCondition(v.Get(column), v.Get(words));
        }
    );

    public static ObjectShape<MappedValue> Value { get; } =
        Shape.Object<MappedValue>(
            "mapped-value",
            "One value of a record and where it comes from.",
            o =>
            {
                var to = o.Required("to", Place, "where it goes", m => m.To);
                var column = o.Optional("column", Heading, "the heading of its column", m => m.Column);
                var and = o.Optional(
                    "and",
                    Heading,
                    "the heading of a second column, whose text follows after a space, as for day and time of day",
                    m => m.And
                );
                var given = o.Optional(
                    "given",
                    Shape.Line(FormatLimits.Sentence),
                    "the value for every row, as it would stand in a cell",
                    m => m.Given
                );
                var form = o.Defaulted(
                    "as",
                    Shape.Choice<ValueForm>("What a cell becomes in a record."),
                    ValueForm.Text,
                    "what it becomes; left out: a text",
                    m => m.As
                );
                var unit = o.Optional(
                    "unit",
                    Shape.Text(
                        1,
                        16,
                        @"[A-Za-z\u00B5\u03BC/%]+",
                        "a unit as quantities are written",
                        "mm",
                        "h"
                    ),
                    "the unit of a figure",
                    m => m.Unit
                );
                var decimals = o.Optional(
                    "decimals",
                    Shape.Whole(0, 6),
                    "decimals that a number of a workbook is written with; left out: as many as it needs",
                    m => m.Decimals
                );
                var pattern = o.Optional(
                    "pattern",
                    Shape.Text(
                        8,
                        40,
                        DatePattern.Signs,
                        DatePattern.TimeForms,
                        "dd/MM/yyyy",
                        "M/d/yyyy h:mm tt"
                    ),
                    "how a day or a time is written; left out: as in a record",
                    m => m.Pattern
                );
                var offset = o.Optional(
                    "offset",
                    Shape.Text(
                        1,
                        6,
                        @"Z|[+\-][0-9]{2}:[0-9]{2}",
                        "`Z`, or hours and minutes such as `+01:00`"
                    ),
                    "the offset of times that are written without; left out: they are of the site's wall clock, and weaker evidence",
                    m => m.Offset
                );
                var between = o.Optional(
                    "between",
                    Shape.Text(1, 1, @"[ ,;/|+]", "a space, or one of `,` `;` `/` `|` `+`"),
                    "what stands between the words of a list; left out: a comma",
                    m => m.Between
                );
                var words = o.Optional(
                    "words",
                    Shape.Map(@"[\s\S]{1,120}", "1 to 120 characters", Heading, FormatLimits.Register),
                    "what each text of a cell means; other texts are refused then",
                    m => m.Words.IsEmpty ? null : m.Words
                );
                o.ExactlyOne(column, given);
                o.Needs(and, column);
                o.NeededFor(form, ["figure"], unit);
                o.Check(
                    v => v.Get(form) is ValueForm.Figure || v.Get(unit) is null,
                    unit,
                    "a unit belongs to a figure",
                    "no `unit`, or `\"as\": \"figure\"`"
                );
                o.Check(
                    v => v.Get(form) is ValueForm.Figure or ValueForm.Number || v.Get(decimals) is null,
                    decimals,
                    "decimals belong to a figure or a number",
                    "no `decimals`, or another `as`"
                );
                o.Check(
                    v => v.Get(form) is ValueForm.Words || v.Get(between) is null,
                    between,
                    "what stands between words belongs to a list of them",
                    "no `between`, or `\"as\": \"words\"`"
                );
                o.Check(
                    v => v.Get(form) is ValueForm.Time || v.Get(offset) is null,
                    offset,
                    "an offset belongs to a time",
                    "no `offset`, or `\"as\": \"time\"`"
                );
                o.Check(
                    v => v.Get(pattern) is null || v.Get(form) is ValueForm.Day or ValueForm.Time,
                    pattern,
                    "a pattern belongs to a day or a time",
                    "no `pattern`, or another `as`"
                );
                o.Check(
                    v =>
                        v.Get(pattern) is not { } written
                        || v.Get(form) is not ValueForm.Day
                        || DatePattern.IsDay(written),
                    pattern,
                    "this pattern tells no day",
                    DatePattern.DayForms
                );
                o.Check(
                    v =>
                        v.Get(pattern) is not { } written
                        || v.Get(form) is not ValueForm.Time
                        || DatePattern.IsTime(written),
                    pattern,
                    "this pattern tells no time",
                    DatePattern.TimeForms
                );
                o.Check(
                    v =>
                        v.Get(pattern) is not { } written
                        || v.Get(offset) is null
                        || !DatePattern.HasOffset(written),
                    offset,
                    "the offset stands in the cell already",
                    "no `offset`, or no `zzz` in the pattern"
                );
                o.Check(
                    v => v.Get(to) is not ("/format" or "/schema"),
                    to,
                    "the format of a record is none of its values",
                    "a member of the record"
                );
                return v => new MappedValue
                {
                    To = v.Get(to),
                    Column = v.Get(column),
                    And = v.Get(and),
                    Given = v.Get(given),
                    As = v.Get(form),
                    Unit = v.Get(unit),
                    Decimals = v.Get(decimals),
                    Pattern = v.Get(pattern),
                    Offset = v.Get(offset),
                    Between = v.Get(between),
                    Words = v.Get(words) ?? MappedValue.NoWords,
                };
            }
        );

    // Nothing in a record lies deeper: a list of units with lists of entries.
    private static readonly ObjectShape<MappedList> InnerObject = Shape.Object<MappedList>(
        "mapped-inner-list",
        "A list of an item, such as the entries of a unit.",
        o => OfList(o, null)
    );

    public static ObjectShape<MappedList> List { get; } =
        Shape.Object<MappedList>(
            "mapped-list",
            "A list of the record whose items come from rows, such as its units.",
            o => OfList(o, InnerObject)
        );

    /// <summary>Whether no value goes to the place of another, or above or below it.</summary>
    public static bool AreApart(ImmutableArray<MappedValue> values) =>
        !values
            .Select(value => value.To + "/")
            .Order(StringComparer.Ordinal)
            .Pairwise()
            .Any(pair => pair.Second.StartsWith(pair.First, StringComparison.Ordinal));

    private static IEnumerable<(string First, string Second)> Pairwise(this IEnumerable<string> texts)
    {
        var all = texts.ToList();
        return all.Zip(all.Skip(1));
    }

    private static Func<MemberValues, MappedList> OfList(
        ObjectMembers<MappedList> o,
        ObjectShape<MappedList>? inner
    )
    {
        var list = o.Required("in", Place, "where the list is", l => l.In);
        var when = o.Optional(
            "when",
            ConditionObject,
            "which rows have an item; left out: those with anything in the columns of its values",
            l => l.When
        );
        var key = o.Items(
            "key",
            Heading,
            FormatLimits.Words,
            "headings of columns: rows of a record that agree in them have one item; left out: each row has its own, and an item "
                + "that no column says anything of stands once",
            l => l.Key
        );
        var values = o.Required(
            "values",
            Shape.List(Value, 1, FormatLimits.MappedValues),
            "the values of an item",
            l => l.Values
        );
        o.Check(v => AreApart(v.Get(values)), values, "one place is filled twice", "each place once");
        if (inner is null)
        {
            return v => new MappedList
            {
                In = v.Get(list),
                When = v.Get(when),
                Key = v.Get(key),
                Values = v.Get(values),
            };
        }

        var lists = o.Items("lists", inner, FormatLimits.MappedLists, "lists of an item", l => l.Lists);
        return v => new MappedList
        {
            In = v.Get(list),
            When = v.Get(when),
            Key = v.Get(key),
            Values = v.Get(values),
            Lists = v.Get(lists),
        };
    }
}
