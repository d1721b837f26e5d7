"""The addresses of documents, issues, and of a case as a folder."""

from witnessmark.web.route import Route, Who

_CASE = "cases/<case:case>"
_DOCUMENT = f"{_CASE}/documents/<slug:kind>"

ROUTES: tuple[Route, ...] = (
    Route("report", f"{_CASE}/report", "report.view:page"),
    Route("issue", f"{_CASE}/report/issue", "report.issue_view:issue", write=Who.OWNER),
    Route("supplement", f"{_CASE}/report/supplement", "report.issue_view:supplement",
          write=Who.OWNER),
    Route("issues", f"{_CASE}/report/issues", "report.issue_view:issues"),
    Route("issued_file", f"{_CASE}/report/issues/<int:number>/<str:name>",
          "report.issue_view:issued_file"),
    Route("case_folder", f"{_CASE}/folder.zip", "report.folder_view:folder"),
    Route("document_pages", _DOCUMENT, "report.document_view:pages"),
    Route("document_card", f"{_DOCUMENT}/card", "report.document_view:card"),
    Route("document_page", f"{_DOCUMENT}/pages/<int:number>", "report.document_view:picture"),
    Route("document", f"{_DOCUMENT}/<slug:form>", "report.document_view:file"),
)  # fmt: skip
