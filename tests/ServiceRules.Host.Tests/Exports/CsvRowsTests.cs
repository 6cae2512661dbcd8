using ServiceRules.Host.Exports;

namespace ServiceRules.Host.Tests.Exports;

public sealed class CsvRowsTests
{
    private sealed record Row(
        string Text,
        long Number,
        bool Flag,
        DateOnly Day,
        string[] Words,
        string? None
    );

    private static async Task<string> WrittenAsync(params Row[] rows)
    {
        await using var text = new StringWriter();
        await CsvRows.WriteAsync(text, rows, CancellationToken.None);
        return text.ToString();
    }

    private static Row With(string text) =>
        new(text, 5, true, new DateOnly(2026, 4, 13), ["grind", "lap"], null);

    [Theory]
    [InlineData("plain", "plain")]
    [InlineData("with, comma", "\"with, comma\"")]
    [InlineData("with \"quotes\"", "\"with \"\"quotes\"\"\"")]
    [InlineData("two\nlines", "\"two\nlines\"")]
    [InlineData("two\rlines", "\"two\rlines\"")]
    public async Task Write_Text_IsQuotedAsRfc4180Says(string text, string cell) =>
        Assert.Equal(
            $"text,number,flag,day,words,none\r\n{cell},5,true,2026-04-13,grind lap,\r\n",
            await WrittenAsync(With(text))
        );

    [Theory]
    [InlineData("=1+1")]
    [InlineData("+1")]
    [InlineData("-1")]
    [InlineData("@cell")]
    [InlineData("\tcell")]
    [InlineData("\r=1")]
    [InlineData("=cmd|' /C calc'!A0")]
    public async Task Write_WhatWouldBeAFormula_DoesNotBeginSo(string text)
    {
        var row = (await WrittenAsync(With(text))).Split("\r\n", 2)[1];

        Assert.DoesNotContain(row.TrimStart('"')[0], "=+-@\t\r");
    }
}
