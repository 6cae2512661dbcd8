using System.IO.Compression;
using System.Text;

namespace ServiceRules.Host.Tests.Tables;

/// <summary>A workbook written part by part, as ISO/IEC 29500 has them, without the library that reads it.</summary>
internal static class WrittenWorkbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string Package = "http://schemas.openxmlformats.org/package/2006/relationships";

    /// <param name="rows">Rows of a sheet, as XML.</param>
    /// <param name="after">What follows them in the sheet.</param>
    /// <param name="settings">Settings of the workbook, as XML.</param>
    /// <param name="names">The sheets; all hold the same.</param>
    public static byte[] Of(string rows, string after = "", string settings = "", params string[] names)
    {
        names = names.Length == 0 ? ["Heights"] : names;
        using var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(
                archive,
                "[Content_Types].xml",
                """
                <Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
                <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
                <Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>
                <Override PartName="/xl/sheet.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>
                <Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>
                <Override PartName="/xl/texts.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/>
                </Types>
                """
            );
            Add(
                archive,
                "_rels/.rels",
                $"<Relationships xmlns=\"{Package}\"><Relationship Id=\"r1\" Type=\"{Relations}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"
            );
            Add(
                archive,
                "xl/_rels/workbook.xml.rels",
                $"""
                <Relationships xmlns="{Package}">
                <Relationship Id="r1" Type="{Relations}/worksheet" Target="sheet.xml"/>
                <Relationship Id="r2" Type="{Relations}/styles" Target="styles.xml"/>
                <Relationship Id="r3" Type="{Relations}/sharedStrings" Target="texts.xml"/>
                </Relationships>
                """
            );
            var sheets = string.Concat(
                names.Select((name, at) => $"<sheet name=\"{name}\" sheetId=\"{at + 1}\" r:id=\"r1\"/>")
            );
            Add(
                archive,
                "xl/workbook.xml",
                $"<workbook xmlns=\"{Main}\" xmlns:r=\"{Relations}\">{settings}<sheets>{sheets}</sheets></workbook>"
            );
            Add(
                archive,
                "xl/texts.xml",
                $"<sst xmlns=\"{Main}\"><si><t>Job</t></si><si><r><t>J</t></r><r><t>-1</t></r><rPh sb=\"0\" eb=\"1\"><t>no</t></rPh></si></sst>"
            );
            // Style 1 shows a day, style 2 a figure with letters that mean nothing, style 3 hours beyond a day.
            Add(
                archive,
                "xl/styles.xml",
                $"""
                <styleSheet xmlns="{Main}"><numFmts count="2"><numFmt numFmtId="170" formatCode="0.00&quot; mm&quot;;[Red]-0.00"/>
                <numFmt numFmtId="171" formatCode="[h]:mm"/></numFmts>
                <cellXfs count="4"><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="170"/><xf numFmtId="171"/></cellXfs></styleSheet>
                """
            );
            Add(
                archive,
                "xl/sheet.xml",
                $"<worksheet xmlns=\"{Main}\"><sheetData>{rows}</sheetData>{after}</worksheet>"
            );
        }

        return stream.ToArray();
    }

    private static void Add(ZipArchive archive, string name, string text)
    {
        using var part = archive.CreateEntry(name).Open();
        part.Write(Encoding.UTF8.GetBytes(text));
    }
}
