using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using ServiceRules.Application.Importing;

namespace ServiceRules.Host.Tables;

/// <summary>The texts that the cells of a workbook share.</summary>
internal static class SheetTexts
{
    /// <summary>Null where there are more than any table has.</summary>
    public static IReadOnlyList<string>? Of(SharedStringTablePart? part)
    {
        List<string> texts = [];
        if (part is null)
        {
            return texts;
        }

        var characters = 0L;
        using var reader = OpenXmlReader.Create(part);
        var more = reader.Read();
        while (more)
        {
            if (reader.ElementType == typeof(SharedStringItem) && reader.IsStartElement)
            {
                var text = Of((SharedStringItem)reader.LoadCurrentElement()!);
                characters += text.Length + 1;
                if (characters > TableLimits.TextCharacters || texts.Count > TableLimits.Cells)
                {
                    return null;
                }

                texts.Add(text);
            }
            else
            {
                more = reader.Read();
            }
        }

        return texts;
    }

    // Without how it is to be spoken, which may stand beside it.
    public static string Of(RstType item) =>
        item.Text?.Text ?? string.Concat(item.Elements<Run>().Select(run => run.Text?.Text));
}
