using PdfSharp.Drawing;
using PdfSharp.Pdf.Structure;

namespace ServiceRules.Reporting.Pdf;

/// <summary>Where the signature goes.</summary>
/// <param name="Page">Index of its page.</param>
/// <param name="Box">Its rectangle, counted from the bottom of the page.</param>
/// <param name="Element">Its place in the reading order.</param>
internal sealed record SignatureRoom(int Page, XRect Box, PdfStructureElement Element);
