using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Imports;

/// <summary>The mapping of an import as a document: `*.mapping.json`.</summary>
public static class ImportMappingFormat
{
    private static readonly JsonShape<string> Heading = Shape.Line(FormatLimits.Title);

    private static readonly ObjectShape<TableLayout> TableObject = Shape.Object<TableLayout>(
        "table-layout",
        "How the table is written.",
        o =>
        {
            var separator = o.Defaulted(
                "separator",
                Shape.Choice<CellSeparator>("What stands between the cells of a CSV file."),
                TableLayout.Usual.Separator,
                "what stands between the cells of a CSV file",
                t => t.Separator
            );
            var decimals = o.Defaulted(
                "decimals",
                Shape.Choice<DecimalMark>("What stands before the decimals of figures that are text."),
                TableLayout.Usual.Decimals,
                "what stands before the decimals of figures that are text",
                t => t.Decimals
            );
            var heading = o.Defaulted(
                "headingRow",
                Shape.Whole(1, FormatLimits.HeadingRow),
                TableLayout.Usual.HeadingRow,
                "the row with the headings, counted from 1; rows above it are passed over",
                t => t.HeadingRow
            );
            var sheet = o.Optional(
                "sheet",
                Heading,
                "the sheet of a workbook; left out: it has one sheet",
                t => t.Sheet
            );
            return v => new TableLayout(v.Get(separator), v.Get(decimals), v.Get(heading), v.Get(sheet));
        }
    );

    private static readonly ObjectShape<ImportMapping> Root = Shape.Object<ImportMapping>(
        "import-mapping",
        "Which column of a table goes to which place of service records.",
        o =>
        {
            var table = o.Defaulted(
                "table",
                TableObject,
                TableLayout.Usual,
                "how the table is written",
                m => m.Table
            );
            var group = o.Required(
                "groupBy",
                Heading,
                "the heading of the column by which rows belong to one record",
                m => m.GroupBy
            );
            var record = o.Required(
                "record",
                Shape.List(MappedShapes.Value, 1, FormatLimits.MappedValues),
                "values of the record itself: all its rows say the same, or nothing",
                m => m.Record
            );
            var lists = o.Items(
                "lists",
                MappedShapes.List,
                FormatLimits.MappedLists,
                "lists of the record",
                m => m.Lists
            );
            var leftOut = o.Items(
                "leftOut",
                Heading,
                FormatLimits.Columns,
                "headings of columns that are not brought in; any other column has to be used",
                m => m.LeftOut
            );
            o.Check(
                v => MappedShapes.AreApart(v.Get(record)),
                record,
                "one place is filled twice",
                "each place once"
            );
            o.Check(
                v => v.Get(record).Any(value => value.To == "/id"),
                record,
                "nothing goes to `/id`",
                "a column for the identity of the record"
            );
            o.Check(
                v =>
                    !v.Get(leftOut)
                        .Intersect(
                            new ImportMapping
                            {
                                GroupBy = v.Get(group),
                                Record = v.Get(record),
                                Lists = v.Get(lists),
                            }.Columns,
                            StringComparer.Ordinal
                        )
                        .Any(),
                leftOut,
                "a column is left out and used",
                "columns that nothing is taken from"
            );
            return v => new ImportMapping
            {
                Table = v.Get(table),
                GroupBy = v.Get(group),
                Record = v.Get(record),
                Lists = v.Get(lists),
                LeftOut = v.Get(leftOut),
            };
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<ImportMapping> Current { get; } =
        new("import-mapping", 1, ReadLimits.Record, Root);
}
