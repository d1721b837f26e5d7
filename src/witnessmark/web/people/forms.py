"""What is asked about people: a new account, another role, the cases somebody sees."""

from django import forms
from django.contrib.auth.password_validation import validate_password

from witnessmark.store.models import Person

ROLES = (
    (Person.Role.OWNER, "owner: everything, and who else comes in"),
    (Person.Role.ASSISTANT, "assistant: fills in the cases that they are let into"),
    (Person.Role.READER, "reader: sees the cases that they are let into"),
)


class PersonForm(forms.Form):
    """A new account."""

    name = forms.CharField(
        label="Name", max_length=150, help_text="As it stands on what they write."
    )
    role = forms.ChoiceField(label="What they may do", choices=ROLES, widget=forms.RadioSelect)
    password = forms.CharField(
        label="A first password",
        max_length=200,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text="Ten characters or more; tell it to them yourself.",
    )

    def clean_password(self) -> str:
        """No password that everybody tries first."""
        password: str = self.cleaned_data["password"]
        validate_password(password)
        return password
